/**
 * A fix is put together before it runs: no cap, cover or body comes back after the line that plugs in.
 *
 * Source: common practice, no source. In no kind and no fix is a hand sent to what the plug has made live.
 */
import { describe, expect, it } from 'vitest'
import { bookOf } from '../../shared/book-of-kind.js'
import type { Fix } from '../../shared/knowledge.js'
import { setupsNeeded } from '../../shared/setups-needed.js'
import type { OnBench } from '../../server/bench/on-bench.js'
import { workScreens } from '../../server/pages/case/work-screens.js'
import { questionOf } from '../../shared/finding-rule.js'
import { knowledge } from '../the-rulebook.js'

/** A tool that stands whole on the bench, and a safety test that is not spared. */
const whole = (kind: string) =>
  ({
    knowledge: bookOf(knowledge, kind),
    situation: { standing: [], answers: {} },
    assessment: { fired: { relevance: [] } },
  }) as unknown as OnBench

const all = knowledge.kinds.flatMap(({ id }) => bookOf(knowledge, id).fixes.map((fix) => ({ kind: id, fix })))
const screensOf = (kind: string, fix: Fix) => workScreens(whole(kind), fix)
const runsIn = ({ steps }: Fix): string | undefined => steps.find(({ trial }) => trial)?.do

describe('the screens of a fix', () => {
  it('bring back what cannot stand under power before the tool runs, and test it', () => {
    const late = all.flatMap(({ kind, fix }) => {
      const run = runsIn(fix)
      if (run === undefined) return []
      const screens = screensOf(kind, fix)
      const runAt = screens.findIndex(({ lines }) => lines.some(({ words }) => words === run))
      const after = screens.slice(runAt + 1).map(({ heading }) => heading)
      const unsafe = setupsNeeded(bookOf(knowledge, kind).setups, fix.setups)
        .filter(({ withPower }) => !withPower)
        .flatMap(({ name, undone }) => [name, undone ?? ''])
      return after
        .filter((heading) => unsafe.includes(heading) || /safety test/i.test(heading))
        .map((it) => [kind, fix.id, it])
    })
    expect(late).toEqual([])
  })

  it('run it only where the fix says that it does: no other line plugs in or switches on', () => {
    const apart = all.filter(({ fix }) => fix.setups.length > 0)
    const untold = apart.flatMap(({ kind, fix }) => {
      const first = fix.steps.findIndex(({ trial }) => trial)
      const before = first < 0 ? fix.steps : fix.steps.slice(0, first)
      return before
        .filter(({ do: words }) => /^(plug in|switch on|run it)\b/i.test(words))
        .map(({ do: words }) => [kind, fix.id, words])
    })
    expect(untold).toEqual([])
  })

  it('put back all that was taken off, by a screen or in a line of the work', () => {
    for (const { kind, fix } of all) {
      const book = bookOf(knowledge, kind)
      const headings = screensOf(kind, fix).map(({ heading }) => heading)
      for (const setup of setupsNeeded(book.setups, fix.setups)) {
        const own = fix.putsBack?.includes(setup.id) === true
        const cutsPower = !setup.withPower && setup.needs.length === 0
        if (own || (cutsPower && runsIn(fix) !== undefined)) continue
        expect(headings, `${kind}, ${fix.id}`).toContain(setup.undone ?? `Undo: ${setup.name}`)
      }
    }
  })

  it('ask of a look what their fix is about, before the hands go on: with a no it is another fault', () => {
    const looks = all.flatMap(({ kind, fix }) => {
      const { causes, findings } = bookOf(knowledge, kind)
      const there = new Set(causes.map(({ id }) => id))
      return screensOf(kind, fix).flatMap(({ look }) => {
        if (!look) return []
        const speaks = findings
          .filter((finding) => questionOf(finding) === look.question)
          .flatMap(({ strengths }) => Object.keys(strengths))
        return [
          {
            fix: `${kind}, ${fix.id}`,
            about: speaks.some((id) => there.has(id) && fix.cures[id] !== undefined),
          },
        ]
      })
    })
    expect(looks.filter(({ about }) => !about)).toEqual([])
    const settling = all.filter(({ fix }) => fix.steps.some(({ settles }) => settles))
    expect(looks.map(({ fix }) => fix)).toEqual(settling.map(({ kind, fix }) => `${kind}, ${fix.id}`))
  })
})
