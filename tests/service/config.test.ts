import assert from 'node:assert/strict'
import { test } from 'node:test'
import { readConfig } from '#service/config.ts'

test('readConfig: an empty environment gives the defaults', () => {
  assert.deepEqual(readConfig({ PORT: '' }), {
    kind: 'config',
    config: {
      host: '127.0.0.1',
      port: 4640,
      at: { kind: 'sqlite', file: './data/unit.sqlite' },
      site: 'unit',
      entriesLimitBytes: 4 * 1024 * 1024,
      attachmentLimitBytes: 16 * 1024 * 1024,
      streamsLimit: 200,
      sealKeyFile: './data/unit.sqlite.seal-key',
      identityKeyFile: './data/unit.sqlite.identity-key',
      backups: null,
      group: [],
      standbyExpected: false,
      signIn: 'required',
      labelPrinter: null,
      log: 'plain',
      metricsToken: null,
      machines: { folderRoot: null, quietSeconds: 60, addresses: [], linesFolder: './data/unit.sqlite.machine-lines' },
      stopAfterSeconds: 0,
      tls: null,
      trustedProxies: [],
      webhooksPrivate: false,
      rates: { sessionPerMinute: 1200, addressPerMinute: 3000, triesPerMinute: 60 },
    },
  })
})

test('readConfig: a standby is expected where the address names several servers, or where it is said', () => {
  const expected = (environment: Record<string, string>) => {
    const read = readConfig(environment)
    return read.kind === 'config' && read.config.standbyExpected
  }
  const [one, two] = ['postgres://a@b/c', 'postgres://a@b:5432,d:5432/c']
  assert.equal(expected({ DATABASE_URL: one }), false)
  assert.equal(expected({ DATABASE_URL: two }), true)
  assert.equal(expected({ DATABASE_URL: one, NILGROWTH_STANDBY: 'expected' }), true)
  assert.equal(expected({ DATABASE_URL: two, NILGROWTH_STANDBY: 'notExpected' }), false)
  assert.equal(expected({ NILGROWTH_STANDBY: 'expected' }), false)
})

test('readConfig: DATABASE_URL goes before the file', () => {
  const read = readConfig({ DATABASE_URL: 'postgres://a@b/c', NILGROWTH_DATA: 'x.sqlite' })
  assert.deepEqual(read.kind === 'config' && read.config.at, { kind: 'postgres', url: 'postgres://a@b/c' })
})

const bad: readonly (readonly [Record<string, string>, RegExp])[] = [
  [{ PORT: '70000' }, /^PORT: wanted a whole number from 0 to 65535, current value is "70000"$/],
  [{ PORT: '80 ' }, /^PORT: wanted a whole number/],
  [
    { NILGROWTH_SITE: 'My Site' },
    /^NILGROWTH_SITE: wanted 1 to 40 small letters, digits or "-", current value is "My Site"$/,
  ],
  [{ NILGROWTH_ENTRIES_LIMIT: '1' }, /^NILGROWTH_ENTRIES_LIMIT: wanted a whole number from 1024/],
  [{ NILGROWTH_BACKUP_FOLDER: '/backups' }, /^NILGROWTH_BACKUP_KEY_FILE: wanted a file for the key of the backups/],
  [{ NILGROWTH_BACKUP_EVERY: '0' }, /^NILGROWTH_BACKUP_EVERY: wanted a whole number from 1 to 168/],
  [{ NILGROWTH_BACKUP_KEEP: '7' }, /^NILGROWTH_BACKUP_KEEP: wanted three whole numbers/],
  [
    { NILGROWTH_SIGN_IN: 'open', HOST: '0.0.0.0' },
    /^NILGROWTH_SIGN_IN: wanted "required" where other computers reach the service \(HOST is "0.0.0.0", or a proxy is trusted\), current value is "open"$/,
  ],
  [
    { NILGROWTH_SIGN_IN: 'open', NILGROWTH_TRUSTED_PROXY: '127.0.0.1' },
    /^NILGROWTH_SIGN_IN: wanted "required" where other computers reach the service .* a proxy is trusted/,
  ],
  [
    { HOST: '0.0.0.0' },
    /^HOST: wanted TLS where other computers reach the service: .*, current value is "0.0.0.0" without TLS$/,
  ],
  [{ HOST: '0.0.0.0', NILGROWTH_PLAIN_HTTP: 'yes' }, /^NILGROWTH_PLAIN_HTTP: wanted /],
  [{ NILGROWTH_TRUSTED_PROXY: 'proxy.example' }, /^NILGROWTH_TRUSTED_PROXY: wanted addresses or networks/],
  [{ NILGROWTH_TRUSTED_PROXY: '10.0.0.0/33' }, /^NILGROWTH_TRUSTED_PROXY: wanted addresses or networks/],
  [{ NILGROWTH_TLS_CERT_FILE: 'a.pem' }, /^NILGROWTH_TLS_KEY_FILE: wanted a file beside NILGROWTH_TLS_CERT_FILE/],
  [{ NILGROWTH_TLS_KEY_FILE: 'a.pem' }, /^NILGROWTH_TLS_CERT_FILE: wanted a file beside NILGROWTH_TLS_KEY_FILE/],
  [
    { NILGROWTH_METRICS_TOKEN: 'secret' },
    /^NILGROWTH_METRICS_TOKEN: wanted 24 to 200 letters, .*, current value is something else$/,
  ],
  [{ DATABASE_URL: 'mysql://me:secret@b/c' }, /^DATABASE_URL: wanted an address such as postgres:/],
]
for (const [environment, says] of bad) {
  test(`readConfig: ${Object.keys(environment).join()} out of range is one clear line`, () => {
    const read = readConfig(environment)
    assert.equal(read.kind, 'unusable')
    assert.match(read.kind === 'unusable' ? read.says : '', says)
    assert.doesNotMatch(JSON.stringify(read), /secret/, 'a password stays out of the log')
  })
}
