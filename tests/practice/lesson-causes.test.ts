/** Which causes the exercise after a lesson may be about, how hard it is, and which lessons fit a cause. */
import { describe, expect, it } from 'vitest'
import { bookOf } from '../../shared/book-of-kind.js'
import { lessonsFor } from '../../server/pages/practice/lesson-links.js'
import { causesOfLesson, levelOfLesson } from '../../server/practice/lesson-causes.js'
import { causesOf, levelOf } from '../../server/practice/level-book.js'
import { knowledge } from '../the-rulebook.js'

const kind = 'universal-motor'

describe('causes of a lesson', () => {
  it.each([
    '',
    'parts',
    'parts/universal-motor',
    'parts/magnetic-motor/coil',
    'parts/universal-motor/no-such-part',
    'parts/universal-motor/brushes/more',
    'confusions/no-such-thing',
    'confusions/cuts-out/more',
    'hearsay/no-such-thing',
    'shelves/cuts-out',
  ])('none for %j with a brush motor', (lesson) => {
    expect(causesOfLesson(knowledge, lesson, kind)).toEqual([])
    expect(levelOfLesson(knowledge, lesson, kind)).toBeUndefined()
  })

  it('a part has those that sit in it: brushes wear, stick, break, and lose their spring (common practice, no source)', () => {
    expect(causesOfLesson(knowledge, 'parts/universal-motor/brushes', kind)).toEqual(
      expect.arrayContaining(['worn-brushes', 'sticking-brush', 'broken-brush', 'weak-brush-spring']),
    )
  })

  it('the level has them all by itself, so that the list of suspects names none', () => {
    for (const { id } of bookOf(knowledge, kind).confusions) {
      const level = levelOf(knowledge, levelOfLesson(knowledge, `confusions/${id}`, kind)!)
      const may = causesOf(knowledge, level, kind, { hideSuspects: false, hidePrices: false })
      expect(may).toEqual(expect.arrayContaining([...causesOfLesson(knowledge, `confusions/${id}`, kind)]))
    }
  })
})

describe('lessons for causes', () => {
  it('the part first, then what holds both, then what holds one, then what goes round', () => {
    const links = lessonsFor(knowledge, kind, ['worn-brushes', 'broken-cord'], 'ana-1').map(
      ({ href }) => href,
    )
    const shelf = links.map((href) => /lessons\/([a-z]+)\//.exec(href)![1])
    expect(shelf).toEqual([...shelf].sort((a, b) => order.indexOf(a!) - order.indexOf(b!)))
    const confusions = links.filter((href) => href.includes('/confusions/'))
    const both = (href: string) => {
      const id = /confusions\/([a-z-]+)/.exec(href)![1]
      const { rivals } = bookOf(knowledge, kind).confusions.find((it) => it.id === id)!
      return rivals.includes('worn-brushes') && rivals.includes('broken-cord')
    }
    const held = confusions.map(both)
    expect(held[0]).toBe(true)
    expect(held).toEqual([...held].sort((a, b) => Number(b) - Number(a)))
    for (const href of links) expect(href).toContain('for=ana-1')
  })

  it('none for causes that nobody knows', () => {
    expect(lessonsFor(knowledge, kind, ['no-such-cause'])).toEqual([])
  })
})

const order = ['parts', 'confusions', 'hearsay']

it.each(knowledge.kinds.map(({ id }) => id))(
  'in lessons of %s nothing is opened before what needs no opening',
  (id) => {
    const { confusions, steps, setups, findings } = bookOf(knowledge, id)
    const opens = (setup: string): boolean => {
      const it = setups.find((one) => one.id === setup)
      return it !== undefined && (it.opensBody || it.needs.some(opens))
    }
    const stepOf = (finding: string) => {
      const when = JSON.stringify(findings.find((one) => one.id === finding)?.when ?? {})
      return steps.find(({ questions }) =>
        questions.some((asked) => asked.id === finding || when.includes(`"${asked.id}"`)),
      )
    }
    for (const { id: confusion, checks } of confusions) {
      const opened = checks.flatMap((finding) => stepOf(finding) ?? []).map((it) => it.setups.some(opens))
      expect(opened, confusion).toEqual([...opened].sort())
    }
  },
)
