import type { Kysely } from 'kysely'
import { NotFound } from '../errors.js'
import { SignedOff } from '../../shared/practice.js'
import { lessonsIn } from './lesson-book.js'
import { exercisesIn } from './exercise-book.js'
import { peopleIn } from './people.js'
import type { Register } from '../register/register.js'
import { setExercisesIn } from './set-book.js'
import type { Tables } from './register-tables.js'
import { signedOffFrom } from './register-tables.js'
import { note } from './written-rows.js'

/**
 * The register of a shop.
 *
 * @param newKey makes the id of a new row; asked again when it is taken
 */
export function registerIn(file: Kysely<unknown>, newKey: () => string): Register {
  const db = file as Kysely<Tables>
  return {
    ...peopleIn(db, newKey),
    ...exercisesIn(db, newKey),
    ...setExercisesIn(db, newKey),
    ...lessonsIn(db, newKey),
    ...signaturesIn(db),
  }
}

function signaturesIn(db: Kysely<Tables>): Pick<Register, 'signedOff' | 'signOff' | 'strikeSignature'> {
  return {
    async signedOff(learner) {
      const rows = await db
        .selectFrom('signed_off')
        .selectAll()
        .where('learner_id', '=', learner)
        .orderBy('skill')
        .execute()
      return rows.map(signedOffFrom)
    },

    async signOff(...signatures) {
      const [first] = signatures
      if (!first) return
      const { learner } = first
      await classOfLearner(db, learner)
      const rows = signatures.map((signature) => {
        const { skill, by, at } = SignedOff.parse(signature)
        return { learner_id: learner, skill, signed_by: by, at }
      })
      await db.transaction().execute(async (within) => {
        await within
          .insertInto('signed_off')
          .values(rows)
          .onConflict((before) =>
            before.columns(['learner_id', 'skill']).doUpdateSet((is) => ({
              signed_by: is.ref('excluded.signed_by'),
              at: is.ref('excluded.at'),
            })),
          )
          .execute()
        await note(within, 'class', [{ id: await classOfLearner(within, learner), did: `signed ${learner}` }])
      })
    },

    strikeSignature: (learner, skill) =>
      db.transaction().execute(async (within) => {
        const { numDeletedRows } = await within
          .deleteFrom('signed_off')
          .where('learner_id', '=', learner)
          .where('skill', '=', skill)
          .executeTakeFirst()
        if (numDeletedRows !== 1n) return
        await note(within, 'class', [{ id: await classOfLearner(within, learner), did: `struck ${learner}` }])
      }),
  }
}

/** @throws NotFound for the learner */
async function classOfLearner(db: Kysely<Tables>, learner: string): Promise<string> {
  const there = await db.selectFrom('learner').select('class_id').where('id', '=', learner).executeTakeFirst()
  if (!there) throw new NotFound(`the learner "${learner}"`)
  return there.class_id
}
