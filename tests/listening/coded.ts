/** A recording through a lossy codec, as phones keep them. */
import OpusScript from 'opusscript'

/** @param rate 8000, 12000, 16000, 24000 or 48000 samples a second */
export function coded(samples: Float32Array, rate: number, bits = 24_000): Float32Array {
  const codec = new OpusScript(rate as 16_000, 1, OpusScript.Application.AUDIO, { wasm: true })
  codec.setBitrate(bits)
  const frame = rate / 50
  const out = new Float32Array(samples.length)
  for (let at = 0; at + frame <= samples.length; at += frame) {
    const pcm = Buffer.alloc(2 * frame)
    for (let n = 0; n < frame; n++)
      pcm.writeInt16LE(Math.max(-32_768, Math.min(32_767, Math.round(32_767 * samples[at + n]!))), 2 * n)
    const back = codec.decode(codec.encode(pcm, frame))
    for (let n = 0; n < frame; n++) out[at + n] = back.readInt16LE(2 * n) / 32_768
  }
  codec.delete()
  return out
}
