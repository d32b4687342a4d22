/** What every application answers whoever asks: headers, styles, scripts of pages. */
import type { Express } from 'express'
import express from 'express'
import { fileURLToPath } from 'node:url'
import { securityHeaders } from '../middleware/security-headers.js'
import { setUpViews } from '../pages/render.js'
import { madeAssets } from './made-assets.js'

const assets = fileURLToPath(new URL('../../views/assets', import.meta.url))

export function servePublicParts(app: Express, production: boolean): void {
  app.disable('x-powered-by')
  setUpViews(app, { production })
  app.use(securityHeaders())
  app.use(madeAssets(production ? 3600 : 0))
  app.use('/assets', express.static(assets, { index: false, maxAge: production ? '1h' : 0 }))
}
