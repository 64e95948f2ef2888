import { describe } from 'node:test'
import { sqliteUnderTest } from '../support/store-under-test.ts'
import { journalContract } from './suite/contract.ts'

describe('the journal on SQLite', () => journalContract(sqliteUnderTest))
