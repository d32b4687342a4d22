/** The shop's own figures: what the plan reckons with, to be read and changed. */
import type { Skill } from '../../shared/knowledge.js'
import { ShopSettings } from '../../shared/situation.js'
import type { Problem, Sent } from './answer-form.js'
import { textOf } from './answer-form.js'
import type { Frame } from './frame.js'
import { plainFrame } from './frame.js'

export interface ShopPage {
  readonly frame: Frame
  readonly numbers: readonly {
    readonly name: string
    readonly words: string
    readonly hint: string
    readonly unit: string
    readonly value: string
    readonly problem: string | null
  }[]
  readonly skills: readonly Choice[]
  readonly tests: readonly Choice[]
  readonly kept: boolean
  readonly problems: readonly Problem[]
}

interface Choice {
  readonly value: string
  readonly words: string
  readonly hint: string
  readonly chosen: boolean
}

type Figure = 'rate' | 'sendIn' | 'turnaroundDays' | 'dayWithout' | 'replace'

const figures: Readonly<Record<Figure, { words: string; hint: string; unit: string; most: number }>> = {
  rate: {
    words: 'A minute at the bench',
    hint: 'What it costs the shop that somebody works on a tool.',
    unit: 'a minute',
    most: 100,
  },
  sendIn: {
    words: 'A service',
    hint: 'What a repair sent out costs as a rule, fee and carriage both ways.',
    unit: 'in all',
    most: 10_000,
  },
  turnaroundDays: { words: 'Days away', hint: 'How long a service keeps it.', unit: 'days', most: 365 },
  dayWithout: {
    words: 'A day without the tool',
    hint: 'What is lost a day while it is away. 0 if a spare stands in.',
    unit: 'a day',
    most: 10_000,
  },
  replace: { words: 'A new one', hint: 'Price of a tool of the same class.', unit: 'each', most: 100_000 },
}

const skillWords: Readonly<Record<Skill, readonly [words: string, hint: string]>> = {
  S1: ['Blades and oil', 'Works from outside; opens nothing.'],
  S2: ['Trained, outside covers', 'Takes out brushes, opens gear covers that bare no live part.'],
  S3: ['Competent bench hand', 'Opens mains bodies where local law lets them.'],
  S4: ['Specialist', 'Windings, boards, capacitors.'],
}

/** @param sent what a refused form held, to be put right; null shows the figures as they are */
export function shopPage(
  shop: ShopSettings,
  sent: Sent | null = null,
  problems: readonly Problem[] = [],
  kept = false,
): ShopPage {
  const skill = sent ? textOf(sent, 'skill') : shop.skill
  const tests = sent ? textOf(sent, 'canSafetyTest') : shop.canSafetyTest ? 'yes' : 'no'
  return {
    frame: plainFrame(`${problems.length > 0 ? 'Error: ' : ''}The shop’s figures`, 'shop'),
    numbers: (Object.keys(figures) as Figure[]).map((name) => ({
      name,
      words: figures[name].words,
      hint: figures[name].hint,
      unit: figures[name].unit,
      value: sent ? textOf(sent, name) : String(shop[name]),
      problem: problems.find((p) => p.field === name)?.message ?? null,
    })),
    skills: ShopSettings.shape.skill.unwrap().options.map((value) => ({
      value,
      words: skillWords[value][0],
      hint: skillWords[value][1],
      chosen: value === skill,
    })),
    tests: [
      {
        value: 'yes',
        words: 'Yes',
        hint: 'A competent person here has the instrument, and may.',
        chosen: tests === 'yes',
      },
      { value: 'no', words: 'No', hint: 'Then no mains body is opened here.', chosen: tests === 'no' },
    ],
    kept,
    problems,
  }
}

/** The figures that a form sent, or every problem with them. A figure may be written 0,8 or 0.8. */
export function shopFrom(
  sent: Sent,
  before: ShopSettings,
): { ok: true; shop: ShopSettings } | { ok: false; problems: Problem[] } {
  const problems: Problem[] = []
  const numbers = { ...before } as Record<Figure, number>
  for (const name of Object.keys(figures) as Figure[]) {
    const { words, most } = figures[name]
    const text = textOf(sent, name).trim().replace(',', '.')
    const value = Number(text)
    if (text === '' || !Number.isFinite(value) || value < 0 || value > most) {
      problems.push({ field: name, message: `${words}: enter a number from 0 to ${most}` })
    } else numbers[name] = value
  }
  const skill = ShopSettings.shape.skill.safeParse(textOf(sent, 'skill') || undefined)
  if (!skill.success || !textOf(sent, 'skill'))
    problems.push({ field: 'skill', message: 'Choose who works at the bench' })
  const tests = textOf(sent, 'canSafetyTest')
  if (tests !== 'yes' && tests !== 'no')
    problems.push({ field: 'canSafetyTest', message: 'Say whether safety is tested here' })
  if (problems.length > 0 || !skill.success) return { ok: false, problems }
  return {
    ok: true,
    shop: ShopSettings.parse({ ...before, ...numbers, skill: skill.data, canSafetyTest: tests === 'yes' }),
  }
}
