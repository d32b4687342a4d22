/** Danger comes first, and every danger can be found. */
import { canHold } from '../satisfiable.js'
import { questionOf } from '../../../shared/finding-rule.js'
import { fileOf, isAskedIn, listed, type Check } from '../rulebook.js'

const oneDangerStep: Check = {
  name: 'one-danger-step',
  description: 'Each kind has exactly one step of the form "danger", and it comes before every other step.',
  needs: ['steps'],
  run: (book) =>
    book.knowledge.kinds.flatMap(({ id }) => {
      const steps = book.knowledge.steps.filter((it) => it.kinds.includes(id))
      const [danger, ...others] = steps.filter((it) => it.form === 'danger')
      if (danger === undefined) {
        const message = 'no step asks for its danger signs'
        return [
          { file: fileOf('kinds', id), field: '', message, remedy: 'add a step of the form "danger" for it' },
        ]
      }
      const earlier = steps.filter((it) => it.form !== 'danger' && it.order <= danger.order)
      return [
        ...others.map((it) => ({
          file: fileOf('steps', it.id),
          field: 'form',
          message: `${id} has another danger step, ${fileOf('steps', danger.id)}`,
          remedy: 'put the danger signs on one screen',
        })),
        ...(earlier.length === 0
          ? []
          : [
              {
                file: fileOf('steps', danger.id),
                field: 'order',
                message: `${listed(earlier.map((it) => it.id))} would come before the danger signs`,
                remedy: `give it an order below ${Math.min(...earlier.map((it) => it.order))}`,
              },
            ]),
      ]
    }),
}

const stopReachable: Check = {
  name: 'stop-reachable',
  description: 'The findings that make a stop are asked for, in every kind that has the stop.',
  needs: ['findings', 'steps', 'fixes'],
  run: (book) =>
    book.knowledge.stops.flatMap((stop) => {
      const without = stop.kinds.filter(
        (kind) =>
          !canHold(stop.when, (fact) => {
            const finding = book.knowledge.findings.find((it) => it.id === fact && it.kinds.includes(kind))
            const asked = finding !== undefined && isAskedIn(book, questionOf(finding), kind)
            return { values: asked ? ['yes', 'no', 'cant-tell', 'unknown'] : ['unknown'] }
          }),
      )
      if (without.length === 0) return []
      const message = `no question for ${listed(without)} can lead to this stop`
      return [
        { file: fileOf('stops', stop.id), field: 'when', message, remedy: 'ask for its findings in a step' },
      ]
    }),
}

const stopNeedsAnswer: Check = {
  name: 'stop-needs-answer',
  description: 'A stop does not hold while nothing is known.',
  run: (book) =>
    book.knowledge.stops
      .filter((stop) => canHold(stop.when, () => ({ values: ['unknown'] })))
      .map((stop) => ({
        file: fileOf('stops', stop.id),
        field: 'when',
        message: 'it holds before anybody has answered anything',
        remedy: 'compare a finding with "yes", "no" or "cant-tell"',
      })),
}

export const dangerChecks: readonly Check[] = [oneDangerStep, stopReachable, stopNeedsAnswer]
