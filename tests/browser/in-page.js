// Runs inside the page. What it finds comes back as lists of sentences: an empty list is a pass.

globalThis.measurePage = () => ({
  overflowing: overflowing(),
  clipped: charts().flatMap(clippedTexts),
  overlapping: charts().flatMap(overlappingTexts),
  withoutAlternative: charts().filter((svg) => !(svg.getAttribute('aria-label') ?? '').trim()).length,
  charts: charts().length,
  headings: [...document.querySelectorAll('h1, h2, h3, h4, h5, h6')].map((heading) => Number(heading.tagName.slice(1))),
  scripts: document.querySelectorAll('script').length,
  images: document.querySelectorAll('img, iframe, object, embed').length,
});

/** The charts on show: of a wide and a narrow one, the hidden one has no size. */
function charts() {
  return [...document.querySelectorAll('svg')].filter((svg) => svg.getBoundingClientRect().width > 0);
}

/** Whatever is wider than the page, or runs out of a box that does not scroll. */
function overflowing() {
  const { scrollWidth, clientWidth } = document.documentElement;
  const page = scrollWidth > clientWidth ? [`the page is ${scrollWidth} wide in ${clientWidth}`] : [];
  const boxes = [...document.querySelectorAll('header, main, section, p, li, h1, h2, h3, figure, figcaption, .charts, pre')]
    .filter((box) => box.scrollWidth > box.clientWidth + 1 && box.clientWidth > 0)
    .map((box) => `${box.tagName} ${box.textContent.slice(0, 40)}: ${box.scrollWidth} in ${box.clientWidth}`);
  const scrolling = [...document.querySelectorAll('.scroll')]
    .filter((box) => box.scrollWidth > box.clientWidth + 1 && !/auto|scroll/.test(getComputedStyle(box).overflowX))
    .map((box) => `table ${box.getAttribute('aria-label')}: ${box.scrollWidth} in ${box.clientWidth}`);
  return [...page, ...boxes, ...scrolling];
}

function textBoxes(svg) {
  return [...svg.querySelectorAll('text, tspan')]
    .filter((text) => text.children.length === 0 && text.textContent.trim() !== '')
    .map((text) => ({ words: text.textContent, box: text.getBoundingClientRect() }));
}

function clippedTexts(svg) {
  const frame = svg.getBoundingClientRect();
  const air = 0.75;
  return textBoxes(svg)
    .filter(({ box }) => box.left < frame.left - air || box.right > frame.right + air || box.top < frame.top - air || box.bottom > frame.bottom + air)
    .map(({ words, box }) => `“${words}” at ${Math.round(box.left - frame.left)}–${Math.round(box.right - frame.left)} of ${Math.round(frame.width)}`);
}

/** A line's box is taller than its letters: only what overlaps by more than that counts. */
function overlappingTexts(svg) {
  const boxes = textBoxes(svg);
  const found = [];
  for (const [index, one] of boxes.entries()) {
    for (const other of boxes.slice(index + 1)) {
      const across = Math.min(one.box.right, other.box.right) - Math.max(one.box.left, other.box.left);
      const down = Math.min(one.box.bottom, other.box.bottom) - Math.max(one.box.top, other.box.top);
      const letters = 0.3 * Math.min(one.box.height, other.box.height);
      if (across > 0.5 && down > letters) found.push(`“${one.words}” and “${other.words}”`);
    }
  }
  return found;
}
