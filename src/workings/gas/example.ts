/* A worked example of the reader: a plateau of 32 min for certain. */

export const gasExampleInput = {
  log: 'seconds,temp (°C)\n0,60\n240,182.5\n480,182.5\n720,182.5\n960,182.5\n1200,182.5\n1440,182.5\n1680,182.5\n1920,182.5\n2160,182.5\n2400,120.5\n2640,120.5',
  program: {
    method: 'dryHeat',
    windows: [
      {
        variable: 'temperatureC',
        from: 180,
        to: 200,
      },
    ],
    exposureSeconds: 1800,
  },
}

export const gasExampleOutput = {
  verdict: 'met',
  method: 'dryHeat',
  cancelled: false,
  exposureSeconds: 1920,
  exposure: {
    startSeconds: 240,
    endSeconds: 2160,
  },
  variables: [
    {
      variable: 'temperatureC',
      channels: ['temp (°C)'],
      min: 182.5,
      max: 182.5,
    },
  ],
  criteria: [
    {
      id: 'exposure',
      title: 'Time with every variable in its window',
      result: 'met',
      measured: 1920,
      limit: 1800,
      unit: 's',
      says: '1920 s for certain, at least 1800 s',
      source: {
        title: 'Programme of the unit',
        status: 'proposal',
      },
    },
    {
      id: 'temperatureC',
      title: 'Temperature from 180 to 200 °C',
      limit: 1800,
      unit: 's',
      source: {
        title: 'Programme of the unit',
        status: 'proposal',
      },
      result: 'met',
      measured: 1920,
      says: '1920 s in the window for certain; 60 to 182.5 °C over the whole log',
    },
  ],
  findings: [
    {
      rule: 'mapped-by-names',
      weight: 'note',
      says: 'No map was given; the columns were taken by their names: time "seconds"; temperatures "temp (°C)" (°C); humidity none; gas none; pressure none; stages none. Save a map if this is not right.',
    },
  ],
}
