import type { Isolated } from '../../server/proof/isolation.js'

export type MarkedTool = Isolated & { readonly causePlaces: readonly number[] }
