/**
 * Passphrases as they are kept: scrypt (RFC 7914) with what OWASP's Password Storage Cheat Sheet names as enough
 * (N = 2^15, r = 8, p = 3), on a thread of the system's. A few tenths of a second each, so that trying is slow.
 */
import { randomBytes, scrypt, timingSafeEqual } from 'node:crypto'

const cost = { N: 2 ** 15, r: 8, p: 3, maxmem: 64 * 2 ** 20 }
const length = 32

/** As short as one may be; longer is better than odd (NIST SP 800-63B §5.1.1). */
export const leastLetters = 8
export const mostLetters = 200

/**
 * Is it among the 49 233 commonest, as zxcvbn-ts lists them? Those are tried first by whoever guesses (OWASP ASVS 5.0.0,
 * 6.2.4, asks for 3000). Read when somebody first chooses one.
 */
export async function isCommon(passphrase: string): Promise<boolean> {
  common ??= import('@zxcvbn-ts/language-common').then(
    ({ dictionary }) => new Set(dictionary['passwords-common'].filter((it) => it.length >= leastLetters)),
  )
  return (await common).has(passphrase.normalize('NFKC').toLowerCase())
}
let common: Promise<ReadonlySet<string>> | undefined

/** @param at what it is to cost, which is kept with it */
export async function kept(passphrase: string, at = cost): Promise<string> {
  const salt = randomBytes(16)
  const key = await derived(passphrase, salt, at)
  return `scrypt ${at.N} ${at.r} ${at.p} ${salt.toString('base64url')} ${key.toString('base64url')}`
}

/** @param against null: nobody's, which takes as long and is never right */
export async function isRight(passphrase: string, against: string | null): Promise<boolean> {
  const [, N, r, p, salt = '', key = ''] = (against ?? (await nobodys())).split(' ')
  const given = await derived(passphrase, Buffer.from(salt, 'base64url'), {
    N: Number(N),
    r: Number(r),
    p: Number(p),
    maxmem: cost.maxmem,
  })
  return timingSafeEqual(given, Buffer.from(key, 'base64url')) && against !== null
}

let nobody: Promise<string> | undefined
/** Made when first asked for. */
const nobodys = (): Promise<string> => (nobody ??= kept(randomBytes(16).toString('hex')))

function derived(passphrase: string, salt: Buffer, options: typeof cost): Promise<Buffer> {
  // one way to write it, whatever keyboard it came from
  const text = passphrase.normalize('NFKC')
  return new Promise((resolve, reject) => {
    scrypt(text, salt, length, options, (error, key) => (error ? reject(error) : resolve(key)))
  })
}
