import { prepareZXingModule, readBarcodes } from 'zxing-wasm/reader'
import wasmAddress from 'zxing-wasm/reader/zxing_reader.wasm?url'

/*
 * Reads codes in pictures of the camera, beside the page: the decoder is compiled here alone, so that the page itself may compile
 * nothing. It comes from our own address; the library would fetch it elsewhere.
 */

prepareZXingModule({ overrides: { locateFile: () => wasmAddress } })

const textOf = new TextDecoder()

addEventListener('message', (event: MessageEvent<ImageData>) => {
  void readBarcodes(event.data, { maxNumberOfSymbols: 1, tryHarder: true }).then(
    // With the identifier of its symbol and its separators, as a scanner sends it.
    ([code]) => postMessage(code === undefined ? { code: null } : { code: textOf.decode(code.bytesECI) }),
    (error: unknown) => postMessage({ failed: String(error) }),
  )
})
