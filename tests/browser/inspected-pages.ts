/** What all pages of a walk are held to, once each was inspected. */
import { describe, expect, it } from 'vitest'
import type { Bench } from './browser.js'
import type { Inspection } from './inspection.js'

/**
 * @param inspected by name of the view, and behind a comma in which state it was
 * @param views     those that the walk must have met
 * @param bench     the one that it walked through, once it is open
 */
export function holdPages(
  inspected: ReadonlyMap<string, Inspection>,
  views: readonly string[],
  bench: () => Bench,
): void {
  /** What is wrong, by page. */
  const wrong = (what: (seen: Inspection) => readonly unknown[]) =>
    Object.fromEntries(
      [...inspected]
        .map(([name, seen]) => [name, what(seen)] as const)
        .filter(([, found]) => found.length > 0),
    )

  describe('every kind of page', () => {
    it('was inspected', () => {
      const met = [...inspected.keys()].map((name) => name.split(',')[0])
      expect(views.filter((name) => !met.includes(name))).toEqual([])
    })

    it('has no violation of WCAG 2.2 A and AA, in light and dark, on a phone and on a desk', () => {
      expect(wrong(({ violations }) => violations)).toEqual({})
    })

    it('fits 360 and 320 px without scrolling sideways (WCAG 2.2, 1.4.10)', () => {
      expect(wrong(({ tooWide }) => tooWide)).toEqual({})
    })

    it('gives a thumb at least 44 px to press', () => {
      expect(wrong(({ tooSmall }) => tooSmall)).toEqual({})
    })

    it('has a title of its own, one first heading, and says its language', () => {
      expect(
        wrong(({ headings, language }) => (headings === 1 && language === 'en' ? [] : [headings])),
      ).toEqual({})
      const titles = [...inspected.values()].map(({ title }) => title)
      expect(titles.filter((title) => !title.endsWith(' – clipperwright'))).toEqual([])
    })

    it('lets the console be silent: nothing breaks the content security policy, no script fails', () => {
      expect(bench().complaints).toEqual([])
    })
  })
}
