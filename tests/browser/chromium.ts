/** The browser: where it lies, how it is started, and the one that all test files of a worker share. */
import sparticuz from '@sparticuz/chromium'
import { mkdirSync, rmSync, statSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { setTimeout as wait } from 'node:timers/promises'
import { chromium } from 'playwright-core'
import type { Browser } from 'playwright-core'
import { giveUp } from '../give-up.js'

const flags = [
  '--no-sandbox',
  '--disable-gpu',
  // drawing by the processor needs no process of its own
  '--in-process-gpu',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  // one site and one process for it: every other costs time and guards nothing here
  '--no-zygote',
  '--renderer-process-limit=1',
  '--process-per-site',
  '--disable-site-isolation-trials',
  '--disable-lcd-text',
  // two cores have enough to do: what scripts leave is collected where they run, a fifth of the browser's work less
  '--js-flags=--single-threaded',
]

/** With next to no room for pictures next to nothing is drawn: where nobody looks, a fifth of the browser's work less. */
const unseen = '--force-gpu-mem-available-mb=1'

let launched: Promise<Browser> | undefined

/** Started by the first that asks, and gone with the worker: to start one takes longer than most of what it is for. */
export const theBrowser = (): Promise<Browser> => (launched ??= launch([unseen]))

/** @param more flags beside the usual ones */
export async function launch(more: readonly string[] = []): Promise<Browser> {
  return chromium.launch({ executablePath: await unpacked(), args: [...flags, ...more], timeout: giveUp })
}

/**
 * Where the browser lies. The first who asks unpacks it, which takes seconds, and the package takes a file
 * that is half written for a whole one; so workers wait for each other here.
 */
async function unpacked(): Promise<string> {
  const lock = join(tmpdir(), 'clipperwright-browser-lock')
  for (;;) {
    try {
      mkdirSync(lock)
      break
    } catch {
      const since = statSync(lock, { throwIfNoEntry: false })?.mtimeMs ?? Date.now()
      if (Date.now() - since > giveUp) rmSync(lock, { recursive: true, force: true })
      await wait(100)
    }
  }
  try {
    return await sparticuz.executablePath()
  } finally {
    rmSync(lock, { recursive: true, force: true })
  }
}
