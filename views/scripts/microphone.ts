/** Samples of one channel, from the microphone or out of a recording. */

export interface Sound {
  readonly samples: Float32Array
  readonly sampleRate: number
}

export type NoSound = 'insecure' | 'refused' | 'none' | 'busy' | 'stopped' | 'format'

export class NoMicrophone extends Error {
  constructor(readonly why: NoSound) {
    super(why)
  }
}

/** Browsers give the microphone to secure pages only: https, or the machine that the program runs on. */
export const hasMicrophone = (): boolean =>
  window.isSecureContext && 'mediaDevices' in navigator && 'audioWorklet' in AudioContext.prototype

interface Watch {
  /** is given what ends it early */
  stopWith(end: () => void): void
  /** level from 0 to 1, and all samples so far */
  block(level: number, all: Float32Array, sampleRate: number): void
}

/** What makes speech clear spoils a tool's sound: no cleaning, no levelling. */
const raw = { echoCancellation: false, noiseSuppression: false, autoGainControl: false, channelCount: 1 }
/** The first moments hold the tap on the screen. */
const settles = 0.3

/** @throws NoMicrophone */
export async function fromMicrophone(seconds: number, watch: Watch): Promise<Sound> {
  if (!hasMicrophone()) throw new NoMicrophone('insecure')
  const stream = await navigator.mediaDevices.getUserMedia({ audio: raw }).catch((error: unknown) => {
    throw new NoMicrophone(whyOf(error))
  })
  const audio = new AudioContext()
  try {
    await audio.audioWorklet.addModule('/assets/listen-worklet.js')
    const node = new AudioWorkletNode(audio, 'blocks')
    audio.createMediaStreamSource(stream).connect(node)
    return await gathered(node.port, seconds, audio.sampleRate, watch)
  } finally {
    for (const track of stream.getTracks()) track.stop()
    await audio.close()
  }
}

function gathered(port: MessagePort, seconds: number, sampleRate: number, watch: Watch): Promise<Sound> {
  const all = new Float32Array(Math.ceil(seconds * sampleRate))
  let skipped = 0
  let count = 0
  let told = 0
  return new Promise((done, fail) => {
    const end = () => {
      port.onmessage = null
      fail(new NoMicrophone('stopped'))
    }
    watch.stopWith(end)
    port.onmessage = ({ data }: MessageEvent<Float32Array>) => {
      if ((skipped += data.length) < settles * sampleRate) return
      all.set(data.subarray(0, all.length - count), count)
      count = Math.min(all.length, count + data.length)
      if (count - told > sampleRate / 10) {
        watch.block(levelOf(all.subarray(told, count)), all.subarray(0, count), sampleRate)
        told = count
      }
      if (count < all.length) return
      port.onmessage = null
      done({ samples: all, sampleRate })
    }
  })
}

/** From −70 dB of full scale, 0, to full scale, 1. */
function levelOf(samples: Float32Array): number {
  const power = samples.reduce((sum, value) => sum + value * value, 0) / samples.length
  return Math.max(0, 1 + (10 * Math.log10(power + 1e-12)) / 70)
}

function whyOf(error: unknown): NoSound {
  const name = error instanceof DOMException ? error.name : ''
  if (name === 'NotAllowedError' || name === 'SecurityError') return 'refused'
  return name === 'NotFoundError' || name === 'OverconstrainedError' ? 'none' : 'busy'
}

/** A minute of a recording is enough. */
const longest = 60

/** @throws whatever the browser throws at a file that it cannot read */
export async function fromFile(file: File): Promise<Sound> {
  const decoder = new OfflineAudioContext(1, 1, 48_000)
  const { sampleRate, length, ...decoded } = await decoder
    .decodeAudioData(await file.arrayBuffer())
    .then((buffer) => ({
      sampleRate: buffer.sampleRate,
      length: Math.min(buffer.length, longest * buffer.sampleRate),
      samples: buffer.getChannelData(0),
    }))
  return { samples: decoded.samples.slice(0, length), sampleRate }
}
