/** How a question is told: every way has its file, and there are no others. */
import { ToldBy } from '../../../shared/telling-file.js'
import { fileOf, listed, type Check } from '../rulebook.js'

const everyWayOfTelling: Check = {
  name: 'every-way-of-telling',
  description: 'rules/telling/ has a file for each way in which a question can be told, and no other.',
  needs: ['telling'],
  run: ({ knowledge }) => {
    const there = new Set(knowledge.telling.map(({ id }) => id))
    const ways: readonly string[] = ToldBy.options
    const remedy = `the ways are ${listed(ways)}`
    return [
      ...ways
        .filter((way) => !there.has(way))
        .map((way) => ({
          file: fileOf('telling', way),
          field: '',
          message: 'there is no such file, so nobody knows how often such a question can be answered',
          remedy: `add it; ${remedy}`,
        })),
      ...[...there]
        .filter((id) => !ways.includes(id))
        .map((id) => ({
          file: fileOf('telling', id),
          field: '',
          message: 'no question is told in this way',
          remedy: `rename or remove it; ${remedy}`,
        })),
    ]
  },
}

export const tellingChecks: readonly Check[] = [everyWayOfTelling]
