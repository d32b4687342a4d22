import type { RequestHandler } from 'express'
import { Refused } from '../errors.js'
import { forDevice } from '../remembered/for-device.js'

/** One device asks for more than it waits for. Answered with 429 (RFC 6585 §4). */
export class TooMany extends Refused {
  readonly status = 429

  constructor() {
    super('Too much at once came from this device, so this was not done. Wait a moment, then try again.')
  }
}

/** What is worked on for one device at a time, and what of it may wait. */
const together = 4
const mostWaiting = 100

interface Device {
  working: number
  readonly waiting: (() => void)[]
}

/**
 * One request after the other, and each device in its turn: three hundred that one phone sends at once are answered in
 * between those of the others, not before them. So is what the second thread works out for them.
 */
export function fairTurns(): RequestHandler {
  const devices = new Map<string, Device>()
  let going = false

  /** Lets one of every device through, then gives way to what came in meanwhile. */
  const goRound = (): void => {
    going = false
    let left = false
    for (const [address, device] of devices) {
      if (device.working < together) device.waiting.shift()?.()
      if (device.working === 0 && device.waiting.length === 0) devices.delete(address)
      left ||= device.waiting.length > 0 && device.working < together
    }
    if (left) soon()
  }
  const soon = (): void => {
    if (going) return
    going = true
    setImmediate(goRound)
  }

  return (req, res, next) => {
    const address = req.ip ?? ''
    const device = devices.get(address) ?? { working: 0, waiting: [] }
    devices.set(address, device)
    if (device.waiting.length >= mostWaiting) throw new TooMany()
    const start = (): void => {
      device.working++
      res.once('close', () => {
        device.working--
        soon()
      })
      // whoever has hung up meanwhile is not worked for
      if (res.closed || req.socket.destroyed) res.destroy()
      else forDevice(address, next)
    }
    device.waiting.push(start)
    soon()
  }
}
