// Hands every block of the microphone's samples to the page; nothing is kept here.
class Blocks extends AudioWorkletProcessor {
  process([input]) {
    if (input[0]) this.port.postMessage(input[0].slice())
    return true
  }
}
registerProcessor('blocks', Blocks)
