/** The shop that the proof stands in: the figures a shop starts with, a competent hand, and a safety test at hand. */
import { ShopSettings } from '../../shared/situation.js'

export const proofShop = ShopSettings.parse({ skill: 'S3', canSafetyTest: true })
