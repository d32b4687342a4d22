import QRCode from 'qrcode'
import type { Tool } from '../../../shared/tool.js'
import type { Frame } from '../layout/frame.js'
import { plainFrame } from '../layout/frame.js'

/** Labels to print and stick on: scanning one opens its tool. */
export interface LabelsPage {
  readonly frame: Frame
  readonly labels: readonly {
    readonly name: string
    readonly address: string
    /** side of the square in modules, the quiet zone included */
    readonly side: number
    /** its dark modules as a path */
    readonly dark: string
  }[]
  /** does the address lead to this machine only? */
  readonly hereOnly: boolean
}

/** ISO/IEC 18004 wants four light modules around. */
const quiet = 4

/** @param origin of the address by which the page was opened, such as http://192.168.1.5:3000 */
export function labelsPage(tools: readonly Tool[], origin: string): LabelsPage {
  return {
    frame: plainFrame('Labels', 'tools'),
    labels: tools
      .filter(({ place }) => place !== 'retired')
      .map(({ id, name }) => {
        const address = `${origin}/tools/${id}`
        const { modules } = QRCode.create(address, { errorCorrectionLevel: 'M' })
        const { size } = modules
        const dark: string[] = []
        for (let y = 0; y < size; y++)
          for (let x = 0; x < size; x++)
            if (modules.get(y, x)) dark.push(`M${x + quiet} ${y + quiet}h1v1h-1z`)
        return { name, address, side: size + 2 * quiet, dark: dark.join('') }
      }),
    hereOnly: /^https?:\/\/(localhost|127\.|\[::1\])/.test(origin),
  }
}
