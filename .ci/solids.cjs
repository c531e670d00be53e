// Solids of all jobs in readers that nobody here wrote. solids.cjs FOLDER NAME...: every
// moving file of the jobs in FOLDER passes the format's own validator without an error or
// a warning; of the jobs named, another kernel's names and counts of the raised carrier's
// parts are those of the parts list. The readers are npm packages, found through NODE_PATH.
const fs = require('fs')
const path = require('path')
const validator = require('gltf-validator')
const kernel = require('occt-import-js')

const [folder, ...named] = process.argv.slice(2)
let failed = 0
const fail = (text) => { console.log('FAILED: ' + text); failed++ }

async function valid(file) {
  const r = await validator.validateBytes(new Uint8Array(fs.readFileSync(file)))
  const { numErrors, numWarnings } = r.issues
  console.log(`${file}: ${r.info.animationCount} animations, ${r.info.totalTriangleCount} triangles, ${numErrors} errors, ${numWarnings} warnings`)
  if (numErrors + numWarnings > 0 || r.info.animationCount === 0) fail(file + ' ' + JSON.stringify(r.issues.messages.slice(0, 5)))
}

// fields of a line of CSV, quoted ones whole.
const fields = (line) => [...line.matchAll(/("([^"]|"")*"|[^,]*)(,|$)/g)].map((m) => m[1].replace(/^"|"$/g, ''))

// within tells whether a list such as "1-2" or "1, 3" has 1 in it.
const first = (list) => list.split(', ').some((run) => +run.split('-')[0] === 1)

// listed are the pieces of each mark at cell 1, pour 1.
function listed(file) {
  const out = {}
  for (const line of fs.readFileSync(file, 'utf8').split('\n').filter((l) => l && !l.startsWith('#')).slice(1)) {
    const [cells, pours, mark, role, , , count] = fields(line)
    if (first(cells) && first(pours)) out[mark] = { count: (out[mark] ? out[mark].count : 0) + Number(count), role }
  }
  return out
}

// read are the solids of each mark, pieces of a mark that is several solids once.
async function read(file) {
  const r = (await kernel()).ReadStepFile(new Uint8Array(fs.readFileSync(file)), null)
  const out = {}
  for (const m of r.meshes) out[m.name] = (out[m.name] || 0) + 1
  return out
}

async function counted(job) {
  const want = listed(path.join(folder, job, 'parts.csv'))
  const got = await read(path.join(folder, job, 'solids/step/cell-1-pour-1-raised.step'))
  let marks = 0
  for (const [mark, { count, role }] of Object.entries(want)) {
    const names = Object.keys(got).filter((n) => n.endsWith(' ' + mark))
    const n = names.reduce((sum, name) => sum + got[name], 0)
    if (names.length !== 1 || n % count !== 0 || n === 0) fail(`${job}: ${mark} (${role}) is listed ${count} times and read ${n} times, as ${names}`)
    marks++
  }
  console.log(`${job}: ${marks} marks as the parts list has them`)
}

(async () => {
  for (const job of fs.readdirSync(folder).sort()) {
    const glb = path.join(folder, job, 'solids/glb')
    if (fs.existsSync(glb)) for (const f of fs.readdirSync(glb).sort()) await valid(path.join(glb, f))
  }
  for (const job of named) await counted(job)
  process.exit(failed ? 1 : 0)
})()
