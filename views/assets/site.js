// Small comforts; every page works without this file.

// Keys for whoever has a keyboard: y, n and c for yes, no and can't tell; 1, 2 and 3 for the buttons in their order.
const answers = { y: 'yes', n: 'no', c: 'cant-tell' }
document.addEventListener('keydown', (event) => {
  if (event.ctrlKey || event.metaKey || event.altKey || event.repeat) return
  if (event.target instanceof Element && event.target.closest('input, textarea, select, summary')) return
  const buttons = [...document.querySelectorAll('form[data-answers] .thumb .answer[value]')]
  const key = event.key.toLowerCase()
  const asked = buttons.some((button) => button.value === 'cant-tell')
  const pressed =
    asked && answers[key] ? buttons.find(({ value }) => value === answers[key]) : buttons[key - 1]
  if (!pressed) return
  event.preventDefault()
  pressed.click()
})

// A double press on an oily screen sends an answer once.
for (const form of document.forms) {
  form.addEventListener('submit', (event) => {
    if (form.dataset.sent) event.preventDefault()
    form.dataset.sent = 'yes'
    setTimeout(() => delete form.dataset.sent, 4000)
  })
}

// What is ticked and not sent yet outlives a reload.
const answering = document.querySelector('form[data-answers]')
const ticks = [...(answering?.querySelectorAll('input[type="checkbox"]') ?? [])]
const unsent = `ticks ${location.pathname} ${answering?.elements.seen?.value}`
try {
  const kept = JSON.parse(sessionStorage.getItem(unsent) ?? '[]')
  for (const tick of ticks) if (kept.includes(tick.name)) tick.checked = true
  answering?.addEventListener('change', () => {
    const ticked = ticks.filter(({ checked }) => checked).map(({ name }) => name)
    sessionStorage.setItem(unsent, JSON.stringify(ticked))
  })
} catch {
  // Storage is off: a reload then forgets them.
}

// The phone's own way back takes back what was said last, as Back does; the address is the same, so it would show the
// same screen again.
const back = document.querySelector('form > .line-back')
if (back) {
  const [visit] = performance.getEntriesByType('navigation')
  const seen = Number(back.value)
  const cameBack = visit?.type === 'back_forward' || (visit?.type === 'reload' && history.state?.woken)
  if (cameBack && history.state?.seen < seen) back.form.requestSubmit(back)
  else history.replaceState({ seen }, '')
}
// A page that a browser kept as it was is out of date.
addEventListener('pageshow', ({ persisted }) => {
  if (!persisted || !back) return
  history.replaceState({ ...history.state, woken: true }, '')
  location.reload()
})

for (const button of document.querySelectorAll('[data-print]')) {
  button.hidden = false
  button.addEventListener('click', () => print())
}

// The summary of what is wrong takes the focus, so that a screen reader starts there.
document.querySelector('.wrong')?.focus()

// A fold that this person opens stays open from page to page, until it is shut again.
for (const fold of document.querySelectorAll('details[data-fold]')) {
  const key = `fold ${fold.dataset.fold}`
  try {
    if (localStorage.getItem(key) === 'open') fold.open = true
    fold.addEventListener('toggle', () => localStorage.setItem(key, fold.open ? 'open' : 'shut'))
  } catch {
    // Storage is off: folds then begin shut.
  }
}

// The other pages of a case shut again by a tap beside them, or by Escape.
const ways = document.querySelector('.line-more')
document.addEventListener('click', ({ target }) => {
  if (ways?.open && !ways.contains(target)) ways.open = false
})
document.addEventListener('keydown', ({ key }) => {
  if (key === 'Escape' && ways?.open) ways.open = false
})
