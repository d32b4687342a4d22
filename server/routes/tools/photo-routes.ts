/** A photo of a tool: made small, and without what a phone writes into it. */
import { Router } from 'express'
import sharp from 'sharp'
import { BadRequest, NotFound } from '../../errors.js'
import { textOf } from '../../forms/answer-form.js'
import { sentFrom } from '../../forms/sent.js'
import type { Deps } from '../../wiring/deps.js'
import { atHand } from '../../wiring/deps.js'
import { oneFile } from './one-file.js'

const mostBytes = 12_000_000
/** What a phone's camera has at most; more is a picture made to fill the memory. */
const mostPixels = 60_000_000
const longestSide = 900

export function photoRoutes(deps: Deps): Router {
  const router = Router()
  router.post('/tools/:id/photo', oneFile('photo', mostBytes), async (req, res) => {
    const { tools } = atHand(deps, req)
    const { id } = await tools.get(String(req.params.id))
    if (textOf(sentFrom(req.body), 'away') === 'yes') await tools.keepPhoto(id, null)
    else await tools.keepPhoto(id, await small(req.file?.buffer))
    res.redirect(303, `/tools/${id}`)
  })
  router.get('/tools/:id/photo.jpg', async (req, res) => {
    const photo = await atHand(deps, req).tools.photo(req.params.id)
    if (!photo) throw new NotFound('a photo of this tool')
    res.type('image/jpeg').set('cache-control', 'private, max-age=60').send(photo)
  })
  return router
}

/** @throws BadRequest for what is no picture */
async function small(photo: Buffer | undefined): Promise<Buffer> {
  try {
    if (!photo || photo.length === 0) throw new Error('no file')
    // without `withMetadata` nothing of EXIF, XMP or IPTC is kept; upright first, because that is told there
    return await sharp(photo, { limitInputPixels: mostPixels })
      .rotate()
      .resize({ width: longestSide, height: longestSide, fit: 'inside', withoutEnlargement: true })
      .jpeg({ quality: 78 })
      .toBuffer()
  } catch {
    throw new BadRequest('This is no picture that can be read. Choose a JPEG, PNG or WebP.', {
      field: 'photo',
      status: 422,
    })
  }
}
