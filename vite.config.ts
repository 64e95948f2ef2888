import { createHash } from 'node:crypto'
import { readFileSync, readdirSync, writeFileSync } from 'node:fs'
import { extname, join, relative, sep } from 'node:path'
import { brotliCompressSync, constants, gzipSync } from 'node:zlib'
import react from '@vitejs/plugin-react'
import { defineConfig, type Plugin } from 'vite'

const outDir = join(import.meta.dirname, 'dist')
const worthCompressing = new Set(['.js', '.css', '.html', '.svg', '.json'])

const worker = 'service-worker.js'

/** Tells the service worker which files make up the program, and a name that changes with any of them. */
function shellOfWorker(): Plugin {
  return {
    name: 'shell-of-worker',
    apply: 'build',
    closeBundle() {
      const paths = readdirSync(outDir, { recursive: true, withFileTypes: true })
        .filter((entry) => entry.isFile() && entry.name !== worker)
        .map((entry) => join(entry.parentPath, entry.name))
        .sort()
      const hash = createHash('sha256')
      for (const path of paths) hash.update(relative(outDir, path)).update(readFileSync(path))
      const files = paths.map((path) => `/${relative(outDir, path).split(sep).join('/')}`)
      const shell = JSON.stringify({ build: hash.digest('hex').slice(0, 16), files })
      const file = join(outDir, worker)
      writeFileSync(file, readFileSync(file, 'utf8').replaceAll('__SHELL__', shell))
      const parts = files.filter((each) => each.startsWith('/assets/'))
      writeFileSync(join(outDir, 'parts.json'), JSON.stringify(parts))
    },
  }
}

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
  plugins: [react(), shellOfWorker(), precompressed()],
  worker: { format: 'es' },
  build: {
    outDir,
    emptyOutDir: true,
    target: 'es2023',
    sourcemap: false,
    rollupOptions: {
      input: {
        index: join(import.meta.dirname, 'src/web/index.html'),
        'service-worker': join(import.meta.dirname, 'src/web/offline/service-worker.ts'),
      },
      output: {
        // A worker is in charge of what is below its own address, and keeps that address over all builds.
        entryFileNames: ({ name }) => (name === 'service-worker' ? worker : 'assets/[name]-[hash].js'),
      },
    },
  },
  server: { proxy: { '/api': `http://localhost:${process.env['PORT'] ?? '4747'}` } },
})
