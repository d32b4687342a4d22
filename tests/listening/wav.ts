/** WAV files in and out. */
import wavefile from 'wavefile'

/** @param samples full scale 1; what is louder is cut off */
export function toWav(samples: Float32Array, rate: number): Uint8Array {
  const wav = new wavefile.WaveFile()
  const cut = Int16Array.from(samples, (value) => Math.round(32_767 * Math.max(-1, Math.min(1, value))))
  wav.fromScratch(1, rate, '16', cut)
  return wav.toBuffer()
}

/** The first channel. @throws Error when it is no WAV file */
export function fromWav(bytes: Uint8Array): { readonly samples: Float32Array; readonly rate: number } {
  const wav = new wavefile.WaveFile(bytes)
  wav.toBitDepth('32f')
  const { sampleRate, numChannels } = wav.fmt as { sampleRate: number; numChannels: number }
  const channels = wav.getSamples(false, Float32Array) as unknown as Float32Array | Float32Array[]
  return {
    samples: numChannels === 1 ? (channels as Float32Array) : (channels as Float32Array[])[0]!,
    rate: sampleRate,
  }
}
