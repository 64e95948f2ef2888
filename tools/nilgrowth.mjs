#!/usr/bin/env node
// The command line: nilgrowth COMMAND [ARG ...]
import { join } from 'node:path'
import { root, runNode } from './node24.mjs'

process.exitCode = await runNode([join(root, 'src/cli/main.ts'), ...process.argv.slice(2)])
