/** The model of a kind as a file for other programs. */
import type { ExportedModel } from './network.js'
import { inTrouble, networkNodes } from './network.js'
import { xmlbif } from './xmlbif.js'

/**
 * @param digest of the rulebook that the model was made from, in hexadecimal
 * @returns XMLBIF 0.3 in UTF-8; the same for the same model and digest
 */
export function modelFile(model: ExportedModel, digest: string): string {
  return xmlbif(model.kind.id.replaceAll('-', '_'), header(model, digest), networkNodes(model))
}

const header = ({ kind, causes, findings, exclusive }: ExportedModel, digest: string): string[] => [
  `What can be wrong with one kind of hair clipper, and how it shows: ${kind.plainName} (${kind.id}).`,
  `Made by clipperwright from its rulebook, SHA-256 ${digest}`,
  'Format: XMLBIF 0.3, http://sites.poli.usp.br/p/fabio.cozman/Research/InterchangeFormat/',
  '',
  `${causes.length} causes, ${findings.length} findings. Every number is a probability from 0 to 1, without a unit,`,
  'written so that it reads back to the same double. Most are estimates; the rulebook says which.',
  'A TABLE counts with the first GIVEN slowest and the FOR fastest, yes before no.',
  '',
  'Nodes (a hyphen of our ids is an underscore here):',
  '  cause_ID      the cause is there; its table is the prior P(cause), not yet knowing that the tool is in trouble',
  '  finding_ID    the finding is true: a leaky noisy-OR of its causes',
  '  leak__ID      the finding is true for some other reason',
  '  link__ID__ID  the finding is true by the leak or by a cause down to this one; the third chance for yes (the link',
  '                before it no, the cause there) is the strength P(finding | this cause alone, no leak)',
  `  ${inTrouble.padEnd(13)} some cause is there; trouble__ID are the links of this OR`,
  '',
  'To ask it something:',
  `  1. Set ${inTrouble} to yes, always. A tool that comes to the bench is in trouble.`,
  '  2. Set each finding that is known to yes or no. Not asked, or "can\'t tell": leave it alone.',
  '     Of findings with the same topic set one only, the first in this file: they are one witness.',
  '     A finding seen "on a running tool only" is not known, never no, while the tool is dead.',
  '     A finding that is not set changes nothing: take it out, with its links and its leak, before exact methods that',
  '     join all nodes (junction trees). Whole, the network is too closely tied for them.',
  '  3. Read P(yes) of the causes. Several can be there at once, so they do not sum to 1.',
  ...(exclusive.some(Boolean)
    ? [
        `The cause marked exclusive stands for "nothing wrong". The last link to ${inTrouble} is an exclusive or, so that`,
        `${inTrouble} is yes with some of the other causes, or with that one alone, and never with both.`,
      ]
    : []),
  'The model is that of a tool on which no fix has been tried yet.',
]
