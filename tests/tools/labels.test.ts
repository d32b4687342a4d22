/** Labels and photos. QR: ISO/IEC 18004, finder patterns and quiet zone; Exif: a picture written with it comes back without. */
import { afterEach, beforeEach, expect, it } from 'vitest'
import sharp from 'sharp'
import request from 'supertest'
import { labelsPage } from '../../server/pages/tools/labels-page.js'
import type { Bench } from '../api/bench.js'
import { benchWith, OPENED } from '../api/bench.js'
import { tinyRulebook } from '../cases/tiny-rulebook.js'

let bench: Bench
let id: string
beforeEach(async () => {
  bench = await benchWith()
  const kind = tinyRulebook.kinds[0]!.id
  const [tool] = await bench.tools.add([{ name: 'A', kind, place: 'in-use', details: {} }], OPENED)
  id = tool!.id
})
afterEach(() => bench.close())

it('a label holds the address of its tool in a square with its three finders and four light modules around', async () => {
  const [label] = labelsPage(await bench.tools.list(), 'http://192.168.1.5:3000').labels
  expect(label!.address).toBe(`http://192.168.1.5:3000/tools/${id}`)
  // side of a version v symbol: 17 + 4v
  expect((label!.side - 8 - 17) % 4).toBe(0)
  const dark = new Set([...label!.dark.matchAll(/M(\d+) (\d+)h1v1h-1z/g)].map(([, x, y]) => `${x} ${y}`))
  const far = label!.side - 5
  for (const [x, y] of [
    [4, 4],
    [far, 4],
    [4, far],
  ] as const)
    expect(dark.has(`${x} ${y}`)).toBe(true)
  // the corner without a finder may be either, the quiet zone is light
  expect([...dark].every((at) => at.split(' ').every((k) => Number(k) >= 4 && Number(k) <= far))).toBe(true)
})

it('a photo is made small and loses what a phone wrote into it', async () => {
  const photo = await sharp({ create: { width: 2400, height: 1200, channels: 3, background: '#888' } })
    .withExif({ IFD0: { Copyright: 'somebody' }, IFD3: { GPSLatitude: '51/1 30/1 0/1' } })
    .jpeg()
    .toBuffer()
  expect((await sharp(photo).metadata()).exif).toBeDefined()
  await request(bench.app).post(`/tools/${id}/photo`).attach('photo', photo, 'photo.jpg').expect(303)
  const kept = await sharp((await bench.tools.photo(id))!).metadata()
  expect([kept.width, kept.height, kept.exif, kept.xmp]).toEqual([900, 450, undefined, undefined])
  await request(bench.app).get(`/tools/${id}/photo.jpg`).expect(200).expect('content-type', 'image/jpeg')
})

it('what is no picture is refused in plain words', async () => {
  const sent = await request(bench.app)
    .post(`/tools/${id}/photo`)
    .attach('photo', Buffer.from('hello'), 'photo.jpg')
  expect(sent.status).toBe(422)
  expect(await bench.tools.photo(id)).toBeNull()
})
