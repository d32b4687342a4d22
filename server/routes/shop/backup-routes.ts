/** Copies of everything, and everything as tables. */
import type { Request } from 'express'
import { Router } from 'express'
import { NotFound } from '../../errors.js'
import { csvOf, csvType } from '../../pages/layout/csv.js'
import { backupPage } from '../../pages/shop/backup-page.js'
import { renderPage } from '../../pages/render.js'
import type { Deps } from '../../wiring/deps.js'

export function backupRoutes(deps: Deps): Router {
  const router = Router()
  const { copies, exports } = deps
  if (!exports) return router

  router.get('/shop/backups', async (req, res) => {
    const page = backupPage(
      copies?.folder ?? null,
      copies?.all() ?? [],
      await exports.tables(),
      req.query['made'] === 'yes',
    )
    renderPage(res, 'shop/backup', page)
  })
  router.post('/shop/backups', async (_req, res) => {
    if (!copies) throw new NotFound('a file to copy: nothing is kept here')
    await copies.make()
    res.redirect(303, '/shop/backups?made=yes')
  })
  router.get('/shop/backups/:name', (req, res) => {
    // only what is in the list: a name leads to no other file
    const copy = copies?.all().find(({ name }) => name === req.params.name)
    if (!copy) throw new NotFound('a backup of this name')
    res.download(copy.path, copy.name, { dotfiles: 'allow' })
  })

  router.get('/shop/export.json', async (_req, res) => {
    res.attachment('clipperwright.json').type('application/json')
    res.write('{')
    for (const [k, table] of (await exports.tables()).entries()) {
      res.write(
        `${k === 0 ? '' : ','}\n${JSON.stringify(table)}: ${JSON.stringify(await exports.rows(table))}`,
      )
    }
    res.end('\n}\n')
  })
  router.get('/shop/export/:table.csv', async (req: Request<{ table: string }>, res) => {
    const { table } = req.params
    if (!(await exports.tables()).includes(table)) throw new NotFound('a table of this name')
    const rows = await exports.rows(table)
    const columns = Object.keys(rows[0] ?? {})
    const text = csvOf([columns, ...rows.map((row) => columns.map((name) => String(row[name] ?? '')))])
    res.attachment(`${table}.csv`).type(csvType).send(text)
  })
  return router
}
