/* What is wrong with the sheets of a page as it stands on a wide screen: [sheet, what, where]. Sizes in CSS px. */
const found = [], mm = 96 / 25.4;
const luminance = ([r, g, b]) => [r, g, b].map(v => v / 255).map(v => v <= 0.03928 ? v / 12.92 : ((v + 0.055) / 1.055) ** 2.4)
  .reduce((sum, v, i) => sum + v * [0.2126, 0.7152, 0.0722][i], 0);
const rgba = text => (text.match(/[\d.]+/g) || []).map(Number);
const behind = element => {
  for (let e = element; e; e = e.parentElement) {
    const colour = rgba(getComputedStyle(e).backgroundColor);
    if (colour.length && (colour.length < 4 || colour[3] > 0)) return colour.slice(0, 3);
  }
  return [255, 255, 255];
};
const sheets = [...document.querySelectorAll('.sheet')];
for (const sheet of sheets) {
  const box = sheet.getBoundingClientRect(), name = sheet.id, pad = 0;
  for (const e of sheet.querySelectorAll('td, th, p, li, h1, h2, .care, .hold, .roll, figure, .box')) {
    if (e.scrollWidth > e.clientWidth + 1 && e.clientWidth) found.push([name, 'too wide', e.textContent.slice(0, 60)]);
  }
  for (const cell of sheet.querySelectorAll('td.w')) if (cell.getBoundingClientRect().height < 7.9 * mm)
    found.push([name, 'too low to write in', cell.parentElement.textContent]);
  const shouts = [...sheet.querySelectorAll('.shout > :first-child')].map(e => parseFloat(getComputedStyle(e).fontSize) * 72 / 96);
  if (shouts.some(size => size < 25.95)) found.push([name, 'does not shout', shouts]);
  if (shouts.length > (sheet.classList.contains('seat') ? 3 : 1)) found.push([name, 'more than one shouts', shouts]);
  for (const e of sheet.querySelectorAll('.step, .loop li')) if (parseFloat(getComputedStyle(e).fontSize) * 72 / 96 < 12.95)
    found.push([name, 'a step too small', e.textContent.slice(0, 40)]);
  const texts = [], walk = document.createTreeWalker(sheet, NodeFilter.SHOW_TEXT);
  while (walk.nextNode()) {
    const node = walk.currentNode, e = node.parentElement;
    if (!node.data.trim() || e.closest('title, desc, style, .foot')) continue;
    const style = getComputedStyle(e), svg = e.closest('svg');
    const scale = svg ? svg.getBoundingClientRect().width / svg.viewBox.baseVal.width : 1;
    const size = parseFloat(style.fontSize) * scale;
    const least = (svg ? 9 : e.closest('.head') ? 8.5 : 9.5) * 96 / 72;
    if (size < least - 0.02) found.push([name, 'too small', size, node.data.slice(0, 40)]);
    const ink = rgba(svg ? style.fill : style.color).slice(0, 3);
    const [a, b] = [luminance(ink), luminance(behind(e))].sort((x, y) => y - x);
    if ((a + 0.05) / (b + 0.05) < 7) found.push([name, 'too faint', node.data.slice(0, 40)]);
    const range = document.createRange();
    range.selectNodeContents(node);
    for (const r of range.getClientRects()) {
      if (r.width < 1) continue;
      const trim = size * 0.3;  // from the line's white to the letters
      texts.push([r.left, r.top + trim, r.right, r.bottom - trim, node.data.slice(0, 40), e]);
      if (r.left < box.left - 1 || r.right > box.right + 1) found.push([name, 'in the margin', node.data.slice(0, 40)]);
    }
  }
  texts.sort((x, y) => x[1] - y[1]);
  texts.forEach((t, i) => {
    for (let j = i + 1; j < texts.length && texts[j][1] < t[3]; j++) {
      const u = texts[j];
      if (t[0] < u[2] - 0.5 && u[0] < t[2] - 0.5 && t[5] !== u[5]) found.push([name, 'over each other', t[4], u[4]]);
    }
  });
}
const fetched = performance.getEntriesByType('resource').map(e => e.name).filter(n => !n.startsWith('data:'));
return {sheets: sheets.length, found, fetched};
