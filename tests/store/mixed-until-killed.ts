/** Run by `kills.ts`: writes of every kind at once, for ever; each line is what was stored, told once it was. */
import { newCaseId } from '../../server/cases/case-id.js'
import { openShopDatabase } from '../../server/store/shop-database.js'
import { openStores } from '../../server/store/stores.js'
import { looked, outcomeWith, tool } from '../register/open-register.js'

const [, , where = '', round = '0'] = process.argv
const ids = { newId: newCaseId, newKey: newCaseId }
const { cases, register, tools, care, copies } = where.startsWith('postgres:')
  ? await onDatabase()
  : await openStores({ file: where, ...ids })
const at = () => new Date().toISOString()
const tell = (...told: (string | number)[]) => process.stdout.write(`${told.join(' ')}\n`)
const hot = {
  type: 'answered' as const,
  step: 'how-it-runs',
  answers: { hot: 'yes' as const },
  when: 'now' as const,
}

async function caseWork(): Promise<never> {
  for (;;) {
    const { id } = await cases.begin({ kind: 'bench-motor', tool: 'Chair 2', at: at() })
    tell('case', id, 0)
    for (let count = 0; count < 20; count += 2) {
      await cases.append(id, [hot, hot], at(), count)
      tell('case', id, count + 2)
    }
  }
}
async function practiceWork(): Promise<never> {
  const { id: ofClass } = await register.addClass({ name: `Class ${round}`, at: at() })
  const { id: learner } = await register.addLearner({ name: 'Ann', class: ofClass, at: at() })
  for (;;) {
    const { id } = await register.begin({ ...tool, learner, at: at() })
    for (let count = 0; count < 6; count++) {
      const last = count === 5
      await register.makeMove(id, looked, at(), count, last ? outcomeWith() : null)
      tell('exercise', id, count + 1)
    }
  }
}
async function toolWork(): Promise<never> {
  for (let list = 0; ; list++) {
    const name = (k: number) => `${round}-${list}-${k}`
    const added = await tools.add(
      [0, 1, 2, 3, 4].map((k) => ({
        name: name(k),
        kind: 'bench-motor',
        place: 'in-use' as const,
        details: {},
      })),
      at(),
    )
    tell('tools', name(0), added.length)
    await care.log(
      `${round}-${list}`,
      added.map(({ id }) => ({ toolId: id, task: 'oil', day: '2026-03-02' })),
      { who: '', at: at() },
    )
    tell('care', `${round}-${list}`, added.length)
  }
}
async function copyWork(): Promise<never> {
  for (;;) tell('copy', (await copies!.make()).path, 0)
}
async function onDatabase() {
  const database = await openShopDatabase(where)
  return database.open((await database.shops())[0]!.id, ids)
}
await Promise.race([caseWork(), practiceWork(), toolWork(), ...(copies ? [copyWork()] : [])])
