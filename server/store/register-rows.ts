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

    async signOff(signature) {
      const { learner } = signature
      const there = await db.selectFrom('learner').select('id').where('id', '=', learner).executeTakeFirst()
      if (!there) throw new NotFound(`the learner "${learner}"`)
      const { skill, by, at } = SignedOff.parse(signature)
      await db
        .insertInto('signed_off')
        .values({ learner_id: learner, skill, signed_by: by, at })
        .onConflict((before) => before.columns(['learner_id', 'skill']).doUpdateSet({ signed_by: by, at }))
        .execute()
    },

    async strikeSignature(learner, skill) {
      await db.deleteFrom('signed_off').where('learner_id', '=', learner).where('skill', '=', skill).execute()
    },
  }
}
