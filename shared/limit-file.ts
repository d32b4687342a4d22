/** Limits of an electrical safety test, one named set a file: countries differ, and sets are never mixed. */
import { z } from 'zod'
import { Note, Order, Schema, Sentence, Short, Source } from './rule-fields.js'

/** What is measured on the tool. */
const Measure = z.enum(['earth-path', 'insulation', 'protective-current', 'touch-current'])
type Measure = z.infer<typeof Measure>

/** For which tools: class I is earthed, class II doubly insulated, class III at extra-low voltage; or all that have an earth. */
const Protection = z.enum(['earthed', 'I', 'I-heating', 'I-hand-held', 'II', 'III'])
type Protection = z.infer<typeof Protection>

export const Limit = z.strictObject({
  measure: Measure,
  of: Protection,
  bound: z.enum(['at-most', 'at-least']),
  value: z.number().gt(0).max(1000),
  unit: z.enum(['ohm', 'megohm', 'milliamp']),
  and: Sentence.optional().describe('what is added to it, or up to where it holds'),
})
export type Limit = z.infer<typeof Limit>

export const LimitFile = z.strictObject({
  $schema: Schema,
  name: Short.describe('the name by which the set is known'),
  where: Sentence.describe('where, and for which test, it is used'),
  limits: z.array(Limit).describe('empty where a country sets none for a test in service'),
  beware: z.array(Sentence).default([]).describe('what of it is disputed, or depends on the edition'),
  order: Order,
  source: Source,
  note: Note,
})
