/** The package brings no types along. */
declare module 'fourier-transform' {
  /** Magnitudes of a frame whose length is a power of two. */
  const rfft: (frame: Float64Array) => Float64Array
  export default rfft
}
