// Every sheet of the corpus in a browser: no console errors, nothing beyond a phone's width, printed on the paper
// that the printer has (A4 or Letter) with nothing cut off, blanks that can be written into, no finding of axe-core in light or dark, each way of a
// connector where its profile says; the search of the index; and a site of words longer than a line, with a
// connector wider than a screen. Called as:
// sheet_in_browser.js BROWSER CORPUS FOLDER_OF_SITE FOLDER_OF_GERMAN_SITE SITE_OF_LONG_WORDS
const fs = require('fs');
const path = require('path');
const { chromium } = require('playwright-core');
const axe = fs.readFileSync(require.resolve('axe-core/axe.min.js'), 'utf8');

const [browserPath, corpus, site, german, longWords] = process.argv.slice(2);
const phone = { width: 390, height: 844 };
const px = (mm) => (mm * 96) / 25.4;
// Points (ISO 216; ANSI/ASME Y14.1, size A); what @page leaves of the narrower and of the lower.
const papers = { A4: [595.28, 841.89], Letter: [612, 792] };
const printed = { width: Math.floor(px(210 - 2 * 12)), height: px(279.4 - 11 - 14) };
const narrowest = Math.floor(px(148 - 2 * 12)); // A5; what is wider, a browser prints smaller, cautions and all
const mostPages = 12;

let failures = 0;
const fail = (what) => {
  failures += 1;
  console.log(`--- ${what}`);
};

// Where format.md puts the ways of a connector: its own reading of it, not the library's. Empty where numbers
// or numbering leave it open.
function placesOf(connector) {
  const pins = Object.keys(connector.pins).map(Number);
  const rows = connector.rows ?? 1;
  if (pins.some((pin) => !(pin >= 1 && pin <= connector.ways))) return null;
  if (rows > 1 && !connector.numbering) return null;
  const columns = Math.ceil(connector.ways / rows);
  const places = new Map();
  for (let n = 1; n <= connector.ways; n += 1)
    places.set(String(n), connector.numbering === 'across_rows'
      ? { row: (n - 1) % rows, column: Math.floor((n - 1) / rows) }
      : { row: Math.floor((n - 1) / columns), column: (n - 1) % columns });
  return places;
}

// Ranks of rounded positions: 0 for the first row or column that is drawn, and so on.
const ranks = (values) => {
  const sorted = [...new Set(values.map(Math.round))].sort((a, b) => a - b);
  const distinct = sorted.filter((value, i) => i === 0 || value - sorted[i - 1] > 4);
  return values.map((value) => distinct.findIndex((one) => Math.abs(one - value) <= 4));
};

async function checkPins(page, name, profile) {
  for (const [id, connector] of Object.entries(profile.connectors)) {
    // A long connector is drawn in strips: the columns of each go on after those of the strip before.
    const strips = await page.evaluate((of) => [...document.querySelectorAll(`[id="connector-${of}"] .pinout`)].map((picture) => [...picture.querySelectorAll('.way')].map((way) => {
      const box = way.querySelector('.cavity').getBoundingClientRect();
      return { pin: way.dataset.pin, used: !/unused|blanked/.test(way.getAttribute('class')), x: box.x + box.width / 2, y: box.y };
    })), id);
    const drawn = strips.flat();
    const used = drawn.filter((way) => way.used).map((way) => way.pin).sort().join();
    if (used !== Object.keys(connector.pins).sort().join()) fail(`${name}: ${id} draws the pins ${used}`);
    const places = placesOf(connector);
    if (!places) continue;
    if (drawn.length !== connector.ways) fail(`${name}: ${id} draws ${drawn.length} ways, not ${connector.ways}`);
    let before = 0;
    for (const strip of strips) {
      const rows = ranks(strip.map((way) => way.y)), columns = ranks(strip.map((way) => way.x));
      strip.forEach((way, i) => {
        const place = places.get(way.pin);
        if (!place || place.row !== rows[i] || place.column !== before + columns[i])
          fail(`${name}: ${id}.${way.pin} is drawn in row ${rows[i] + 1}, column ${before + columns[i] + 1}`);
      });
      before += Math.max(...columns) + 1;
    }
  }
}

// Contrast takes axe-core most of its time, and all sheets have the same colours: asked of some, in light and dark.
async function checkAxe(page, name, options) {
  const violations = await page.evaluate(async ({ source, how }) => {
    if (!window.axe) (0, eval)(source);
    const found = await window.axe.run(document, { resultTypes: ['violations'], ...how });
    return found.violations.map((one) => `${one.id}: ${one.help}: ${one.nodes.slice(0, 3).map((node) => `${node.html.slice(0, 160)} ${node.any.map((check) => check.message).join(' ')}`).join(' | ')}`);
  }, { source: axe, how: options });
  for (const violation of violations) fail(`${name}: axe: ${violation}`);
}
const butContrast = { rules: { 'color-contrast': { enabled: false } } };
async function checkContrast(page, name) {
  for (const colorScheme of ['light', 'dark']) {
    await page.emulateMedia({ colorScheme });
    await checkAxe(page, `${name}, ${colorScheme}`, { runOnly: ['color-contrast'] });
  }
}

async function checkWidth(page, name, width) {
  const wide = await page.evaluate((most) => {
    const over = [];
    if (document.documentElement.scrollWidth > most) over.push(`the page is ${document.documentElement.scrollWidth} wide`);
    for (const element of document.body.querySelectorAll('*')) {
      const box = element.getBoundingClientRect();
      // What scrolls inside a frame of its own, or is there for the ear alone, is not seen beyond the edge.
      if (box.right > most + 1 && !element.closest('.drawing, thead')) over.push(`${element.tagName} ${element.getAttribute('class') ?? ''} ends at ${Math.round(box.right)}`);
    }
    return over.slice(0, 5);
  }, width);
  for (const one of wide) fail(`${name}: beyond ${width} px: ${one}`);
}

// What a label names stands beside it.
async function checkFacts(page, name) {
  const apart = await page.evaluate(() => [...document.querySelectorAll('.facts dt')]
    .filter((dt) => Math.abs(dt.getBoundingClientRect().top - dt.nextElementSibling.getBoundingClientRect().top) > 3)
    .map((dt) => dt.textContent));
  for (const one of apart) fail(`${name}: "${one}" stands in another line than its value`);
}

// Every text and contact lies within its picture, no text on another, and no way is smaller on a screen than it was drawn.
async function checkPinouts(page, name) {
  const wrong = await page.evaluate(() => [...document.querySelectorAll('.pinout')].flatMap((picture) => {
    const frame = picture.getBoundingClientRect();
    const cut = [...picture.querySelectorAll('rect, text')].filter((element) => {
      const box = element.getBoundingClientRect();
      return box.left < frame.left - 1 || box.right > frame.right + 1 || box.bottom > frame.bottom + 1;
    }).map((element) => `${element.getAttribute('class')} ${element.textContent} is cut off`);
    const texts = [...picture.querySelectorAll('text')].map((text) => ({ text, box: text.getBoundingClientRect() }));
    texts.forEach(({ text, box }, i) => texts.slice(i + 1).forEach((other) => {
      const over = Math.min(box.right, other.box.right) - Math.max(box.left, other.box.left);
      if (over > 1 && Math.min(box.bottom, other.box.bottom) - Math.max(box.top, other.box.top) > 3) cut.push(`${text.textContent} runs ${Math.round(over)} px into ${other.text.textContent}`);
    }));
    return frame.width < picture.viewBox.baseVal.width - 1 && picture.closest('.wide') ? [...cut, `drawn ${Math.round(frame.width)} px wide, not ${picture.viewBox.baseVal.width}`] : cut;
  }));
  for (const one of wrong.slice(0, 5)) fail(`${name}: ${one}`);
}

// A reading such as "15.25 kΩ" is written by hand into 25 mm.
async function checkBlanks(page, name) {
  const narrow = await page.evaluate((least) => [...document.querySelectorAll('.blank input')]
    .filter((input) => input.getBoundingClientRect().width < least - 1)
    .map((input) => `${input.getAttribute('aria-label')} is ${Math.round(input.getBoundingClientRect().width)} px wide`), px(25));
  for (const one of narrow) fail(`${name}: too narrow to write into: ${one}`);
}

// Backgrounds are not printed unless somebody asks for them: text is dark by itself (WCAG 2.1, 1.4.3). Letters
// are at least 2 mm high from line to line, and the printer's edge cuts no border off.
async function checkPaper(page, name) {
  const wrong = await page.evaluate(({ least, right }) => {
    const light = (colour) => {
      const [r, g, b] = colour.match(/[\d.]+/g).slice(0, 3).map((of) => of / 255).map((v) => (v <= 0.04045 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4));
      return 0.2126 * r + 0.7152 * g + 0.0722 * b;
    };
    const texts = [...document.body.querySelectorAll('*')].filter((element) => element.getClientRects().length > 0 && [...element.childNodes].some((node) => node.nodeType === Node.TEXT_NODE && node.data.trim()));
    const kind = (element) => `${element.tagName} ${element.getAttribute('class') ?? ''} "${element.textContent.trim().slice(0, 30)}"`;
    const scale = (element) => {
      const picture = element.closest('svg');
      return picture ? picture.getBoundingClientRect().width / picture.viewBox.baseVal.width : 1;
    };
    return [
      ...texts.filter((element) => !element.closest('svg') && 1.05 / (light(getComputedStyle(element).color) + 0.05) < 4.5).map((element) => `${kind(element)} is pale without its background`),
      ...texts.filter((element) => parseFloat(getComputedStyle(element).fontSize) * scale(element) < least).map((element) => `${kind(element)} is ${(parseFloat(getComputedStyle(element).fontSize) * scale(element)).toFixed(1)} px high`),
      ...[...document.querySelectorAll('.cautions, .test-card, .blank input')].filter((element) => element.getBoundingClientRect().right > right - 0.5).map((element) => `the border of ${kind(element)} lies on the edge`),
    ];
  }, { least: px(2), right: printed.width });
  for (const one of wrong.slice(0, 5)) fail(`${name}: ${one}`);
}

async function checkPrintLayout(page, name) {
  await page.emulateMedia({ media: 'print', colorScheme: 'light' });
  await page.setViewportSize({ width: printed.width, height: Math.round(printed.height) });
  await checkWidth(page, `${name}, printed`, printed.width);
  await checkBlanks(page, `${name}, printed`);
  await checkPaper(page, `${name}, printed`);
  // What may not be broken must fit a page, or it is cut in two.
  const tall = await page.evaluate((most) => [...document.querySelectorAll('svg, tr, input, .head, .test-card, .code, .cautions, h2, h3')]
    .filter((element) => element.getBoundingClientRect().height > most)
    .map((element) => `${element.tagName} ${element.getAttribute('class') ?? ''} is ${Math.round(element.getBoundingClientRect().height)} high`), printed.height);
  for (const one of tall) fail(`${name}: higher than a page: ${one}`);
  await page.setViewportSize({ width: narrowest, height: Math.round(printed.height) });
  await checkWidth(page, `${name}, printed on A5`, narrowest);
}

async function checkPdf(page, name) {
  let printedPages = 0;
  for (const [format, [wide, high]] of Object.entries(papers)) {
    const pdf = (await page.pdf({ format, preferCSSPageSize: true, printBackground: true })).toString('latin1');
    const boxes = [...pdf.matchAll(/\/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/g)];
    const pages = (pdf.match(/\/Type \/Page\b(?!s)/g) ?? []).length;
    if (pages < 1 || pages > mostPages || boxes.length < 1) fail(`${name}: prints ${pages} pages of ${format}`);
    for (const [, width, height] of boxes)
      if (Math.abs(width - wide) > 1.5 || Math.abs(height - high) > 1.5) fail(`${name}: prints on ${width} x ${height} points, not ${format}`);
    printedPages += pages;
  }
  return printedPages;
}

async function checkIndex(browser, page) {
  await page.emulateMedia({ media: 'screen', colorScheme: 'light' });
  await page.setViewportSize(phone);
  await page.goto(`file://${site}/index.html`);
  await checkWidth(page, 'index', phone.width);
  await checkAxe(page, 'index', butContrast);
  await checkContrast(page, 'index');
  const shown = () => page.locator('.entry:visible').count();
  const all = await shown();
  const search = page.locator('#search-box');
  for (const [words, wanted] of [['OV-4410', 1], ['ov-4410 larch', 1], ['ov4410 S1', 1], ['larch24', 1], ['nosuchword', 0], ['', all]]) {
    await search.fill(words);
    if ((await shown()) !== wanted) fail(`index: "${words}" shows ${await shown()} boards, not ${wanted}`);
    if (!(await page.locator('#found').textContent()).startsWith(String(wanted))) fail(`index: says another number for "${words}"`);
  }
  const still = await browser.newContext({ javaScriptEnabled: false, viewport: phone });
  const plain = await still.newPage();
  await plain.goto(`file://${site}/index.html`);
  if (await plain.locator('#search-box').isVisible()) fail('index: a search is offered that cannot work without scripts');
  if ((await plain.locator('.entry').count()) !== all) fail('index: without scripts boards are missing');
  await still.close();
}

async function checkLongWords(page) {
  const name = 'long words';
  await page.emulateMedia({ media: 'screen', colorScheme: 'light' });
  await page.setViewportSize(phone);
  await page.goto(`file://${longWords}/index.html`);
  await checkWidth(page, `index of ${name}`, phone.width);
  await page.goto(`file://${longWords}/long-words.html`);
  for (const width of [320, phone.width, 800]) { // 320: WCAG 2.1, 1.4.10
    await page.setViewportSize({ width, height: phone.height });
    await checkWidth(page, name, width);
    await checkFacts(page, name);
    await checkPinouts(page, name);
  }
  await checkPins(page, name, JSON.parse(fs.readFileSync(path.join(__dirname, 'long_words.profile.json'), 'utf8')));
  await checkPrintLayout(page, name);
}

function profiles(folder) {
  return fs.readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
    const file = path.join(folder, entry.name);
    if (entry.isDirectory()) return profiles(file);
    return entry.name.endsWith('.profile.json') ? [JSON.parse(fs.readFileSync(file, 'utf8'))] : [];
  });
}

(async () => {
  // A sandbox of its own cannot be had as root, as in a container; these pages are the project's own.
  const browser = await chromium.launch({ executablePath: browserPath, args: ['--no-sandbox'] });
  const page = await (await browser.newContext({ viewport: phone })).newPage();
  let name = '';
  page.on('console', (message) => message.type() === 'error' && fail(`${name}: console: ${message.text()}`));
  page.on('pageerror', (error) => fail(`${name}: ${error}`));
  page.on('request', (request) => !request.url().startsWith('file://') && !request.url().startsWith('data:') && fail(`${name}: asks for ${request.url()}`));
  let sheets = 0, pages = 0;
  const all = profiles(corpus);
  for (const [number, profile] of all.entries()) {
    for (const folder of [site, german]) {
      const some = number % 3 === 0; // what the pages share is looked at on one in three
      if (folder === german && !some) continue;
      name = `${profile.id}${folder === german ? ' in German' : ''}`;
      sheets += 1;
      await page.setViewportSize(phone);
      await page.emulateMedia({ media: 'screen', colorScheme: 'light' });
      await page.goto(`file://${folder}/${profile.id}.html`);
      await checkWidth(page, name, phone.width);
      await checkBlanks(page, name);
      await checkFacts(page, name);
      await checkPinouts(page, name);
      for (const width of some ? [720, 800, 900] : [800]) {
        await page.setViewportSize({ width, height: 1000 });
        await checkWidth(page, name, width);
      }
      await page.setViewportSize(phone);
      if (folder === site) {
        await checkPins(page, name, profile);
        await checkAxe(page, name, butContrast);
        if (sheets % 8 === 1) await checkContrast(page, name);
      }
      await checkPrintLayout(page, name);
      if (folder === site) pages += await checkPdf(page, name);
    }
  }
  name = 'index';
  await checkIndex(browser, page);
  await checkLongWords(page);
  await browser.close();
  if (sheets === 0) fail('there is no sheet');
  console.log(failures === 0 ? `all hold: ${sheets} sheets, ${pages} pages printed` : `${failures} failed`);
  process.exit(failures === 0 ? 0 : 1);
})();
