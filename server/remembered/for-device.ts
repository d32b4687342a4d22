/** For which device something is worked out, told along the way that a request takes. */
import { AsyncLocalStorage } from 'node:async_hooks'

const device = new AsyncLocalStorage<string>()

export const forDevice = (address: string, work: () => void): void => device.run(address, work)

/** Empty where no request asked for it. */
export const deviceNow = (): string => device.getStore() ?? ''
