// Small comforts; every page works without this file.

// Keys for whoever has a keyboard: y or 1, n or 2, c or 3 press the answer buttons in their order.
const keys = { y: 0, 1: 0, n: 1, 2: 1, c: 2, 3: 2 }
document.addEventListener('keydown', (event) => {
  if (event.ctrlKey || event.metaKey || event.altKey || event.repeat) return
  if (event.target instanceof Element && event.target.closest('input, textarea, select, summary')) return
  const place = keys[event.key.toLowerCase()]
  const answers = document.querySelectorAll('form[data-answers] .thumb .answer')
  if (place === undefined || answers.length !== 3) return
  event.preventDefault()
  answers[place]?.click()
})

// A double press on an oily screen sends an answer once.
for (const form of document.forms) {
  form.addEventListener('submit', (event) => {
    if (form.dataset.sent) event.preventDefault()
    form.dataset.sent = 'yes'
    setTimeout(() => delete form.dataset.sent, 4000)
  })
}

// Steps ticked off stay ticked when the phone goes dark and the page is loaded again.
for (const list of document.querySelectorAll('[data-ticks]')) {
  for (const box of list.querySelectorAll('[data-tick]')) {
    const key = `${list.dataset.ticks} ${box.dataset.tick}`
    try {
      box.checked = sessionStorage.getItem(key) === 'yes'
      box.addEventListener('change', () => sessionStorage.setItem(key, box.checked ? 'yes' : 'no'))
    } catch {
      // Storage is off: the ticks then last as long as the page.
    }
  }
}

for (const button of document.querySelectorAll('[data-print]')) {
  button.hidden = false
  button.addEventListener('click', () => print())
}

// The summary of what is wrong takes the focus, so that a screen reader starts there.
document.querySelector('.wrong')?.focus()
