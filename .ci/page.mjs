// Pages as a browser, a screen reader's rules and a validator see them.
// usage: node page.mjs TOOLS PAGE...; TOOLS has node_modules.
import { createRequire } from 'node:module';
import { readFileSync, statSync } from 'node:fs';
import { resolve } from 'node:path';
const [tools, ...pages] = process.argv.slice(2);
const require = createRequire(resolve(tools, 'node_modules/'));
const { chromium } = require('playwright-core');
const { HtmlValidate } = require('html-validate');
const axe = readFileSync(require.resolve('axe-core/axe.min.js'), 'utf8');

let wrong = 0;
const fail = (page, what) => { wrong++; console.log(`${page}: ${what}`); };

const validator = new HtmlValidate({
  extends: ['html-validate:standard'],
  rules: {
    // style, not markup: widths of columns, void elements without a slash, inline style of <col>
    'no-inline-style': 'off', 'void-style': 'off', 'long-title': 'off', 'no-raw-characters': 'off', 'no-trailing-whitespace': 'off',
    // a scrolled table is a region that is reached by keyboard
    'prefer-native-element': 'off', 'wcag/h63': 'off',
  },
});
for (const page of pages) {
  const report = await validator.validateString(readFileSync(page, 'utf8'));
  for (const r of report.results) for (const m of r.messages.filter((m) => m.severity > 1).slice(0, 10)) fail(page, `${m.line}:${m.column} ${m.ruleId}: ${m.message}`);
}

const browser = await chromium.launch({ executablePath: process.env.CHROMIUM || '/usr/bin/chromium', args: ['--no-sandbox'] });
for (const page of pages) {
  const context = await browser.newContext({ bypassCSP: true, viewport: { width: 1200, height: 900 } });
  const tab = await context.newPage();
  let asked = 0;
  tab.on('request', () => asked++);
  tab.on('console', (m) => { if (m.type() === 'error') fail(page, m.text()); });
  tab.on('dialog', (d) => { fail(page, 'a dialog opened: ' + d.message()); d.dismiss(); });
  await tab.goto('file://' + resolve(page));
  if (asked !== 1) fail(page, `${asked} requests, not that of the page alone`);
  await tab.evaluate(axe);
  const found = await tab.evaluate(() => window.axe.run({ resultTypes: ['violations'] }));
  for (const v of found.violations) fail(page, `${v.id} (${v.impact}): ${v.help}: ${v.nodes.slice(0, 3).map((n) => n.html.slice(0, 120)).join(' | ')}`);
  // on a phone nothing reaches beyond the page's side
  await tab.setViewportSize({ width: 390, height: 844 });
  const over = await tab.evaluate(() => document.documentElement.scrollWidth - document.documentElement.clientWidth);
  if (over > 0) fail(page, `on a phone it is ${over} px wider than the screen`);
  // on paper nothing is cut at the side of a column
  await tab.setViewportSize({ width: 680, height: 960 });
  await tab.emulateMedia({ media: 'print' });
  const cut = await tab.evaluate(() => [...document.querySelectorAll('td, th')].filter((c) => c.scrollWidth > c.clientWidth + 2).map((c) => c.textContent.slice(0, 60)).slice(0, 5));
  if (cut.length) fail(page, `cut on paper: ${cut.join(' | ')}`);
  const passed = await tab.evaluate(() => document.querySelectorAll('math').length);
  console.log(`${page}: ${statSync(page).size} bytes, ${passed} formulas, ${found.violations.length} violations`);
  await context.close();
}
await browser.close();
process.exit(wrong ? 1 : 0);
