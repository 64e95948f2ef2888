/** What a scan finds, and what may be recorded of it. */
export const scanWords = {
  nothing: 'Nothing on record has this code.',
  perhaps: { lot: 'its product number is not on record: it may be this one', product: 'the product, not this piece' },
  record: 'It may be recorded',
  offers: { lot: 'Take this lot into use', item: 'Register this piece', device: 'Register this product as a device' },
  camera: {
    open: 'Scan with the camera',
    short: 'Camera',
    title: 'Scan with the camera',
    seen: 'What the camera sees',
    hold: 'Hold the code before the camera, a hand away, until it fills a third of the picture.',
    notOpened:
      'The camera could not be opened. Let this page use it in the browser, or type what is printed beside the code.',
    unread: 'Codes cannot be read in pictures here. Type what is printed beside the code.',
  },
  gtin: 'Product number in its code (GTIN)',
  gtinHint: '14 digits, as they are read from the code.',
  giai: 'Number of this piece in its code (GIAI)',
} as const
