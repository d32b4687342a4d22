/**
 * Listening in a real browser, whose microphone is a WAV file: from the tap on Listen to an answer that the diagnosis
 * uses; and what happens where there is no microphone.
 */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Browser, Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { recording } from '../listening/recordings.js'
import { knowledge } from '../the-rulebook.js'
import { toWav } from '../listening/wav.js'
import type { Bench } from './browser.js'
import { openBench, phone } from './browser.js'
import { launch } from './chromium.js'

const folder = mkdtempSync(join(tmpdir(), 'clipperwright-sound-'))
const wav = join(folder, 'microphone.wav')
let browser: Browser
let bench: Bench

/** The rulebook with no other look than to listen, so that no plan asks something else first. */
const onlyListening = {
  ...knowledge,
  steps: knowledge.steps.filter(
    ({ form, questions }) => form === 'danger' || questions.some(({ id }) => id === 'speed-percent'),
  ),
}

/** Slower than its plate by three tenths, as a tired battery leaves it. */
const made = recording('direct', 3, { rate: 48_000, room: { overNoise: 20, echo: null } })
const figure = Math.round(made.tool.perMinute / 0.7)

beforeAll(async () => {
  writeFileSync(wav, toWav(made.samples, 48_000))
  browser = await launch([
    '--use-fake-device-for-media-stream',
    '--use-fake-ui-for-media-stream',
    `--use-file-for-fake-audio-capture=${wav}`,
    '--autoplay-policy=no-user-gesture-required',
  ])
  bench = await openBench({ browser, rulebook: onlyListening })
})
afterAll(async () => {
  await bench.close()
  await browser.close()
  rmSync(folder, { recursive: true })
})

/** A cordless clipper that stalls in hair, at the screen that listens. */
async function atTheStep(prepare?: (page: Page) => Promise<unknown>): Promise<{ page: Page; home: string }> {
  const home = await bench.begun(['stalls-in-hair'], 'Chair 4', 'rotary-cordless')
  const page = await bench.open({ ...phone, permissions: ['microphone'] })
  await prepare?.(page)
  await page.goto(home)
  await page.locator('[data-open]').waitFor()
  return { page, home }
}

const readingOf = async (home: string) => {
  const { events } = await bench.cases.get(home.split('/')[2]!)
  return events.flatMap((event) => (event.type === 'answered' ? [event.answers['speed-percent']] : [])).at(-1)
}

describe('from the tap on Listen', () => {
  it('to a reading that the diagnosis uses, with its picture and its words on the way, and nothing but numbers sent', async () => {
    const { page, home } = await atTheStep()
    const sent: number[] = []
    page.on('request', (request) => sent.push(request.postDataBuffer()?.length ?? 0))
    // where there is a microphone, typing is folded away; nobody says no to what is folded
    expect(
      await page
        .locator('input[name="n-speed-percent"], button[value="no"]')
        .filter({ visible: true })
        .count(),
    ).toBe(0)
    await page.getByRole('button', { name: /^Listen/ }).tap()
    await page.locator('#listen-figure').fill(String(figure))
    await page.locator('[data-start]').tap()
    await page.locator('.listen-picture path').waitFor()
    await page.locator('[data-use]:visible').waitFor()
    const told = await page.locator('.listen-heard').innerText()
    expect(told).toMatch(/7\d(\.\d)? in 100|69(\.\d)? in 100|70 in 100/)
    expect(Math.max(0, ...sent)).toBe(0)
    await Promise.all([page.waitForEvent('load'), page.locator('[data-use]').tap()])
    expect(Math.max(...sent)).toBeLessThan(1000)
    const reading = await readingOf(home)
    expect(Math.abs(Number(reading) - 70)).toBeLessThan(1)
    await page.goto(`${home}/answers`)
    expect(await page.locator('main').innerText()).toContain(`${reading}`)
    // next time, to put the answer right, the figure is there already
    await page.goto(`${home}/answers/speed-percent`)
    await page.getByRole('button', { name: /^Listen/ }).tap()
    expect(await page.locator('#listen-figure').inputValue()).toBe(String(figure))
  })
})

describe('without a microphone', () => {
  it.each([
    ['NotAllowedError', /refused/],
    ['NotFoundError', /no microphone/i],
  ])('%s is said, and typing stays', async (name, words) => {
    const { page, home } = await atTheStep((page) =>
      page.addInitScript(
        `navigator.mediaDevices.getUserMedia = () => Promise.reject(new DOMException('no', '${name}'))`,
      ),
    )
    await page.getByRole('button', { name: /^Listen/ }).tap()
    await page.locator('[data-start]').tap()
    await page.locator('[data-say]', { hasText: words }).waitFor()
    await page.locator('[data-close]').tap()
    await page.locator('input[name="n-speed-percent"]').fill('80')
    await Promise.all([
      page.waitForEvent('load'),
      page.locator('form[data-answers] .thumb button[value="no"]').tap(),
    ])
    expect(await readingOf(home)).toBe(80)
  })
  it('a page that is not secure takes a recording, and says so of a file that it cannot read', async () => {
    const { page, home } = await atTheStep((page) =>
      page.addInitScript(`Object.defineProperty(window, 'isSecureContext', { value: false })`),
    )
    await page.getByRole('button', { name: /^Listen/ }).tap()
    expect(await page.locator('[data-start]').isVisible()).toBe(false)
    const file = page.locator('.listen-box input[type="file"]')
    await file.setInputFiles({ name: 'a.wav', mimeType: 'audio/wav', buffer: Buffer.from('no sound') })
    await page.locator('[data-say]', { hasText: /cannot read/i }).waitFor()
    await page.locator('#listen-figure').fill(String(figure))
    await file.setInputFiles(wav)
    await page.locator('[data-use]:visible').waitFor()
    await Promise.all([page.waitForEvent('load'), page.locator('[data-use]').tap()])
    expect(Math.abs(Number(await readingOf(home)) - 70)).toBeLessThan(1)
  })
})

it('the browser complains of nothing', () => {
  expect(bench.complaints).toEqual([])
})
