// npm run pictures: draws every flow anew into docs/flows, and takes away what belongs to none.
import { mkdirSync, readdirSync, rmSync, writeFileSync } from 'node:fs'
import { flowDocuments, flowFolder } from './flow-documents.ts'

const documents = flowDocuments()
mkdirSync(flowFolder, { recursive: true })
for (const name of readdirSync(flowFolder)) if (!documents.has(name)) rmSync(new URL(name, flowFolder))
for (const [name, text] of documents) writeFileSync(new URL(name, flowFolder), text)
process.stdout.write(`${documents.size} files in docs/flows\n`)
