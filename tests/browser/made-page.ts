import express from 'express'
import type { Page } from 'playwright-core'
import { setUpViews } from '../../server/pages/render.js'

/** A page that a walk cannot meet, made of its model: it stands in the browser as if the server had sent it. */
export async function showMade(page: Page, view: string, model: object): Promise<void> {
  const app = express()
  setUpViews(app, { production: true })
  const body = await new Promise<string>((done, failed) =>
    app.render(`pages/${view}`, { page: model }, (error: unknown, html) =>
      error instanceof Error ? failed(error) : done(html),
    ),
  )
  const address = `/made/${view}`
  await page.route(`**${address}`, (route) => route.fulfill({ body, contentType: 'text/html' }))
  await page.goto(address)
}
