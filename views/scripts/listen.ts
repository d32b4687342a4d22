/**
 * Listening to a tool through the browser. Sound is worked out here and stays here; what goes to the server is what
 * "Use this" writes into the fields of the form. Without this script the fields are typed.
 */
import type { HeardQuestion } from '../../server/listening/answers.js'
import { answersTo } from '../../server/listening/answers.js'
import { hear } from '../../server/listening/hear.js'
import type { Context, Heard } from '../../server/listening/heard.js'
import { fill, finish, keep } from './form.js'
import { NoMicrophone, fromFile, fromMicrophone, hasMicrophone } from './microphone.js'
import { drawTrack } from './picture.js'
import { heardWords, noMicrophoneWords, silenceWords } from './words.js'

interface Settings {
  readonly seconds: number
  readonly context: Context
  readonly questions: readonly HeardQuestion[]
  /** do these questions cover all that the form asks? */
  readonly all: boolean
}

/** Of what was recorded last, so much is looked at for the live rate. */
const liveSeconds = 3

for (const box of document.querySelectorAll<HTMLElement>('[data-listen]')) setUp(box)

function setUp(box: HTMLElement): void {
  const settings = JSON.parse(box.dataset['listen']!) as Settings
  const { seconds } = settings
  const form = document.querySelector<HTMLFormElement>('form[data-answers]')
  const dialog = box.querySelector('dialog')
  if (!form || !dialog) return
  const at = <E extends HTMLElement = HTMLElement>(name: string) => box.querySelector<E>(`[data-${name}]`)
  const [say, rate, picture, told] = ['say', 'rate', 'picture', 'heard'].map((name) => at(name)!)
  const meter = box.querySelector('meter')!
  const figure = box.querySelector<HTMLInputElement>('#listen-figure')
  let stop: (() => void) | null = null
  let heard: Heard | null = null
  let twin = false

  /** Strokes a minute that it should make. A mains-driven arm makes two for each cycle of the plate's hertz, sixty times. */
  const reference = (): number | null => {
    const plate = box.querySelector<HTMLInputElement>('[name="listen-plate"]:checked')
    if (plate) return 120 * Number(plate.value)
    const typed = Number((figure?.value ?? '').replaceAll(/[\s.,’']/g, ''))
    return typed > 0 ? typed : null
  }
  const context = (): Context => ({ ...settings.context, expected: twin ? null : reference() })
  const show = (names: readonly string[]) => {
    for (const name of ['before', 'live', 'start', 'use', 'again', 'twin', 'file'])
      at(name)?.toggleAttribute('hidden', !names.includes(name))
  }
  const ready = (words: string) => {
    say!.textContent = words
    picture!.replaceChildren()
    told!.replaceChildren()
    heard = null
    show(hasMicrophone() ? ['before', 'start', 'twin', 'file'] : ['before', 'file'])
  }
  const conclude = (samples: Float32Array, sampleRate: number) => {
    const result = hear(samples, sampleRate, context())
    picture!.replaceChildren(drawTrack(result, samples.length / sampleRate))
    rate!.textContent = result.rate ? String(Math.round(result.rate.perMinute)) : '–'
    if (!result.rate) {
      told!.replaceChildren()
      say!.textContent = silenceWords(result.silence)
      return show(['again', 'file'])
    }
    if (twin && figure) {
      figure.value = String(Math.round(result.rate.perMinute))
      twin = false
      return ready(`Its twin makes ${figure.value}. Now this one.`)
    }
    heard = result
    say!.textContent = ''
    told!.replaceChildren(
      ...heardWords(result, settings.questions, reference()).map((words) =>
        Object.assign(document.createElement('li'), { textContent: words }),
      ),
    )
    show(['live', 'use', 'again'])
    at('use')!.focus()
  }
  const listen = async () => {
    show(['live'])
    say!.textContent = 'Listening…'
    rate!.textContent = '–'
    picture!.replaceChildren()
    told!.replaceChildren()
    let looked = 0
    try {
      const { samples, sampleRate } = await fromMicrophone(seconds, {
        stopWith: (end) => (stop = end),
        block: (level, all, sampleRate) => {
          meter.value = level
          const now = all.length / sampleRate
          if (now - looked < 1 || now < 2) return
          looked = now
          const live = hear(all.slice(-liveSeconds * sampleRate), sampleRate, context())
          rate!.textContent = live.rate ? String(Math.round(live.rate.perMinute)) : '–'
          const track = live.track.map((it) => ({ ...it, at: it.at + Math.max(0, now - liveSeconds) }))
          picture!.replaceChildren(drawTrack({ ...live, track, dropOuts: [] }, seconds))
        },
      })
      conclude(samples, sampleRate)
    } catch (error) {
      if (!(error instanceof NoMicrophone)) throw error
      ready(noMicrophoneWords(error.why))
    } finally {
      stop = null
    }
  }

  box.hidden = false
  // where there is a microphone, listening is the short way; typing and ticking fold away beside it
  const byEar = form.querySelector<HTMLDetailsElement>('details[data-by-ear]')
  const unfold = () => byEar?.setAttribute('open', '')
  if (hasMicrophone()) byEar?.removeAttribute('open')
  at('open')!.addEventListener('click', () => {
    ready(hasMicrophone() ? '' : noMicrophoneWords('insecure'))
    dialog.showModal()
    box.querySelector<HTMLElement>('#listen-title')?.focus()
  })
  at('start')!.addEventListener('click', () => void listen())
  at('again')!.addEventListener('click', () => ready(''))
  at('twin')?.addEventListener('click', () => {
    twin = true
    void listen()
  })
  at('use')!.addEventListener('click', () => {
    if (!heard) return
    const answers = answersTo(settings.questions, heard, reference())
    fill(form, answers)
    if (figure) keep(form, figure.value)
    dialog.close()
    unfold()
    finish(form, settings.all, answers)
  })
  at('close')!.addEventListener('click', () => {
    dialog.close()
    unfold()
    form.querySelector<HTMLInputElement>('input[name^="n-"]')?.focus()
  })
  dialog.addEventListener('close', () => {
    twin = false
    stop?.()
  })
  const file = box.querySelector<HTMLInputElement>('input[type="file"]')!
  file.addEventListener('change', () => {
    const chosen = file.files?.[0]
    file.value = ''
    if (!chosen) return
    fromFile(chosen).then(
      ({ samples, sampleRate }) => conclude(samples, sampleRate),
      () => ready(noMicrophoneWords('format')),
    )
  })
}
