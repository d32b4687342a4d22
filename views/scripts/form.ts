/** What was heard, written into the fields that a hand would fill. */
import type { HeardAnswer } from '../../server/listening/answers.js'

export function fill(form: HTMLFormElement, answers: ReadonlyMap<string, HeardAnswer>): void {
  for (const [field, answer] of answers) {
    if (field.startsWith('n-')) fillNumber(form, field, answer)
    else {
      for (const box of form.querySelectorAll<HTMLInputElement>(`input[name="${field}"]`))
        box.checked = box.value === String(answer)
    }
  }
}

function fillNumber(form: HTMLFormElement, field: string, answer: HeardAnswer): void {
  const typed = form.querySelector<HTMLInputElement>(`input[name="${field}"]`)
  if (typed) typed.value = typeof answer === 'number' ? String(answer) : ''
  const cannot = form.querySelector<HTMLInputElement>(`input[name="q-${field.slice(2)}"][value="cant-tell"]`)
  if (cannot) cannot.checked = typeof answer !== 'number'
}

/** Sends the form where all of it was heard; else goes to what is still to be answered. */
export function finish(form: HTMLFormElement, all: boolean): void {
  const done = form.querySelector<HTMLButtonElement>('.thumb button:not([name])')
  if (all && done) form.requestSubmit(done)
  else done?.focus()
}
