/** What was heard, written into the fields that a hand would fill. */
import type { HeardAnswer } from '../../server/listening/answers.js'

export function fill(form: HTMLFormElement, answers: ReadonlyMap<string, HeardAnswer>): void {
  for (const [field, answer] of answers) {
    if (field.startsWith('n-')) fillNumber(form, field, answer)
    else if (form.querySelector(`input[type="checkbox"][name="${field}"]`)) fillTick(form, field, answer)
    else {
      for (const box of form.querySelectorAll<HTMLInputElement>(`input[name="${field}"]`))
        box.checked = box.value === String(answer)
    }
  }
}

/** A box that is not ticked says nothing; what was heard says no, or that it cannot tell, until a hand ticks it. */
function fillTick(form: HTMLFormElement, field: string, answer: HeardAnswer): void {
  form.querySelector(`input[type="hidden"][name="${field}"]`)?.remove()
  const box = form.querySelector<HTMLInputElement>(`input[type="checkbox"][name="${field}"]`)!
  box.checked = answer === 'yes'
  if (answer === 'yes') return
  const said = Object.assign(document.createElement('input'), {
    type: 'hidden',
    name: field,
    value: String(answer),
  })
  box.addEventListener('change', () => said.remove(), { once: true })
  form.append(said)
}

function fillNumber(form: HTMLFormElement, field: string, answer: HeardAnswer): void {
  const typed = form.querySelector<HTMLInputElement>(`input[name="${field}"]`)
  if (typed) typed.value = typeof answer === 'number' ? String(answer) : ''
  const cannot = form.querySelector<HTMLInputElement>(`input[name="q-${field.slice(2)}"][value="cant-tell"]`)
  if (cannot) cannot.checked = typeof answer !== 'number'
}

/** The figure that strokes were held against goes along, to be kept with the tool. */
export function keep(form: HTMLFormElement, strokes: string): void {
  const kept =
    form.querySelector<HTMLInputElement>('input[name="strokes"]') ??
    form.appendChild(Object.assign(document.createElement('input'), { type: 'hidden', name: 'strokes' }))
  kept.value = strokes
}

/** Sends the form where all of it was heard; else goes to what is still to be answered. */
export function finish(form: HTMLFormElement, all: boolean, answers: ReadonlyMap<string, HeardAnswer>): void {
  // one question alone is answered by a button of its own
  for (const [field, answer] of answers) {
    const own = form.querySelector<HTMLButtonElement>(`.thumb button[name="${field}"][value="${answer}"]`)
    if (own) return form.requestSubmit(own)
  }
  const open = [...form.querySelectorAll<HTMLInputElement>('input[name^="n-"]')].find((it) => it.value === '')
  const done = form.querySelector<HTMLButtonElement>('.thumb button:not([name]), .thumb button[value="no"]')
  if (all && done && !open) form.requestSubmit(done)
  else (open ?? done)?.focus()
}
