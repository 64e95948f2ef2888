import { readFileSync, readdirSync, writeFileSync } from 'node:fs'
import { extname, join } from 'node:path'
import { brotliCompressSync, constants, gzipSync } from 'node:zlib'
import react from '@vitejs/plugin-react'
import { defineConfig, type Plugin } from 'vite'

const outDir = join(import.meta.dirname, 'dist')
const worthCompressing = new Set(['.js', '.css', '.html', '.svg', '.json'])

/** Writes a .br and a .gz beside each text file, so that the service never compresses while a request waits. */
function precompressed(): Plugin {
  return {
    name: 'precompressed',
    apply: 'build',
    closeBundle() {
      for (const entry of readdirSync(outDir, { recursive: true, withFileTypes: true })) {
        if (!entry.isFile() || !worthCompressing.has(extname(entry.name))) continue
        const file = join(entry.parentPath, entry.name)
        const bytes = readFileSync(file)
        writeFileSync(`${file}.gz`, gzipSync(bytes, { level: 9 }))
        writeFileSync(
          `${file}.br`,
          brotliCompressSync(bytes, { params: { [constants.BROTLI_PARAM_SIZE_HINT]: bytes.length } }),
        )
      }
    },
  }
}

export default defineConfig({
  root: join(import.meta.dirname, 'src/web'),
  plugins: [react(), precompressed()],
  build: { outDir, emptyOutDir: true, target: 'es2023', sourcemap: false },
  server: { proxy: { '/api': `http://localhost:${process.env['PORT'] ?? '4747'}` } },
})
