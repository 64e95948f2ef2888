/** How text and blocks may look. */
interface Look {
  readonly style?: string
  readonly bold?: boolean
  readonly fontSize?: number
  readonly margin?: readonly [number, number, number, number]
  readonly alignment?: 'left' | 'right' | 'center'
  readonly width?: number | '*'
}

export type Cell = string | (Look & { readonly text: string })

/**
 * What a printed page is made of: the part of pdfmake's document that our pages use, as plain data. Its published types bring those of a
 * browser into every file of the program, so that they are not taken.
 */
export type Content =
  | Cell
  | (Look & { readonly ul: readonly string[] })
  | (Look & { readonly ol: readonly string[] })
  | (Look & { readonly svg: string })
  | (Look & { readonly stack: readonly Content[] })
  | (Look & { readonly columns: readonly Content[] })
  | (Look & {
      readonly layout: 'lightHorizontalLines' | 'noBorders'
      readonly table: {
        readonly headerRows?: number
        readonly keepWithHeaderRows?: number
        readonly dontBreakRows?: boolean
        readonly widths: readonly (number | '*' | 'auto')[]
        readonly body: readonly (readonly Cell[])[]
      }
    })

export interface DocumentDefinition {
  readonly info: Readonly<Record<string, string>>
  readonly pageSize: 'A4'
  readonly pageMargins: readonly [number, number, number, number]
  readonly defaultStyle: Readonly<Record<string, string | number>>
  readonly styles: Readonly<Record<string, Omit<Look, 'style'> & { readonly color?: string }>>
  readonly header: (page: number, pages: number) => Content
  readonly footer: (page: number, pages: number) => Content
  readonly content: readonly Content[]
}
