declare module 'pdfmake/js/index.js' {
  interface Pdfmake {
    setFonts(fonts: Record<string, Record<'normal' | 'bold' | 'italics' | 'bolditalics', string>>): void
    setUrlAccessPolicy(allow: (url: string) => boolean): void
    setLocalAccessPolicy(allow: (path: string) => boolean): void
    createPdf(definition: object): { getBuffer(): Promise<Uint8Array> }
  }
  const pdfmake: Pdfmake
  export default pdfmake
}
