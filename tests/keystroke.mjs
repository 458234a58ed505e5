// What a keystroke costs, against an empty counter page in the same run:
//
//   node tests/keystroke.mjs dist AUDIT [FIELD@STAGE ...]
//
// In the sample job; in one as large as a job can be, 36 marks at 12 places in 20 passes, where the field is
// written largest:FIELD@STAGE.
//
// AUDIT is a folder with audit/server.mjs and its installed playwright-core. The processor is slowed four
// times, as a tablet's. Own: from the capture of the input event to after its handlers and what they
// queued. Frame: to the first task after the next frame. Times are noisy on a shared machine: compare the
// two pages of one run and quote medians.
import fs from 'node:fs';
import os from 'node:os';
import path from 'node:path';
import { pathToFileURL } from 'node:url';

const [dist, audit, ...asked] = process.argv.slice(2);
const from = (file) => import(pathToFileURL(path.resolve(audit, file)));
const { chromium } = await from('node_modules/playwright-core/index.mjs');
const { StaticServer } = await from('server.mjs');
const fields = asked.length ? asked : ['old-0@measure', 'weld-line@cut', 'station-2-0-3@true', 'weight-mass-0@weights'];
const KEYS = 60;

const empty = fs.mkdtempSync(path.join(os.tmpdir(), 'counter-'));
fs.writeFileSync(path.join(empty, 'index.html'), '<!doctype html><meta charset=utf-8><title>counter</title><label>n <input id="n"></label><output id="o"></output><script src="c.js"></script>');
fs.writeFileSync(path.join(empty, 'c.js'), 'let n=0;document.getElementById("n").addEventListener("input",()=>{document.getElementById("o").textContent=String(++n)})');

const sites = { counter: await new StaticServer(empty, {}).start(), page: await new StaticServer(dist, {}).start() };
const browser = await chromium.launch({ executablePath: process.env.CHROME || '/usr/bin/chromium', args: ['--no-sandbox', '--disable-gpu', '--disable-background-networking'] });

function quantile(values, share) {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.ceil(share * sorted.length) - 1)].toFixed(1);
}

// A tube out to one side and somewhat oval, each pass nearer to true.
function largest() {
  const fields = {};
  for (let pass = 0; pass < 20; pass++) {
    for (let place = 0; place < 12; place++) {
      for (let mark = 0; mark < 36; mark++) {
        const at = (mark * Math.PI) / 18;
        const height = (20 - 0.8 * pass + 0.1 * place) * Math.cos(at) + 3 * Math.sin(2 * at);
        fields[`station-${pass}-${place}-${mark}`] = { text: height.toFixed(0), unit: 'thou' };
      }
    }
  }
  const turn = { kind: 'Tacked', stations: 'ThirtySix', marks: 36 };
  const job = { 'shaftwright-job': 4, name: 'Largest', choices: {}, turns: Array(20).fill(turn), counts: { places: 12 }, fields };
  return { name: 'largest.json', mimeType: 'application/json', buffer: Buffer.from(JSON.stringify(job)) };
}

async function measure(page, field) {
  await page.evaluate(() => {
    const times = (window.times = { own: [], frame: [] });
    let start;
    window.addEventListener('input', () => { start = performance.now(); }, true);
    window.addEventListener('input', () => {
      const begun = start;
      times.own.push(performance.now() - begun);
      requestAnimationFrame(() => {
        const after = new MessageChannel();
        after.port1.onmessage = () => times.frame.push(performance.now() - begun);
        after.port2.postMessage(0);
      });
    });
  });
  await page.focus(field);
  for (let i = 0; i < KEYS; i++) {
    if (i % 6 === 5) for (let back = 0; back < 5; back++) await page.keyboard.press('Backspace');
    else await page.keyboard.press(String((i * 7) % 10));
    await page.waitForTimeout(60);
  }
  return page.evaluate(() => window.times);
}

for (const asked of fields) {
  const large = asked.startsWith('largest:');
  const [id, stage] = asked.replace('largest:', '').split('@');
  for (const [name, site] of Object.entries(sites)) {
    const context = await browser.newContext({ viewport: { width: 1024, height: 768 }, hasTouch: true, isMobile: true });
    const page = await context.newPage();
    await page.goto(site.url);
    if (name === 'page') {
      if (large) await page.setInputFiles('input[type=file]', largest());
      else await page.tap('.sample-job');
      await page.tap(`.rail a[href$="/${stage}"]`);
      await page.waitForSelector(`[data-stage=${stage}]`);
      if (large) {
        // The last of its places along the tube; the last pass is the one shown.
        await page.evaluate(() => [...document.querySelectorAll('.segments button')].find((key) => key.textContent.trim() === 'Place 12')?.click());
        await page.waitForSelector(`#${id}`);
      }
      await page.fill(`#${id}`, '');
      await page.waitForTimeout(300);
    }
    const devtools = await context.newCDPSession(page);
    await devtools.send('Emulation.setCPUThrottlingRate', { rate: 4 });
    const { own, frame } = await measure(page, name === 'page' ? `#${id}` : '#n');
    console.log(`${asked} ${name.padEnd(7)} own p50 ${quantile(own, 0.5)} p95 ${quantile(own, 0.95)} ms, frame p50 ${quantile(frame, 0.5)} p95 ${quantile(frame, 0.95)} ms, ${own.length} keys`);
    await context.close();
  }
}
await browser.close();
for (const site of Object.values(sites)) await site.stop();
fs.rmSync(empty, { recursive: true });
