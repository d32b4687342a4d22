import { z } from 'zod'

/** Is it a day that the calendar has, such as 2026-03-02? 2026-02-30 is none. */
export const isDay = (text: string): boolean => z.iso.date().safeParse(text).success
