// Measures the words of every drawing on the page in a wide and a narrow font.
// Says which leave the picture, which leave the box they are meant to stand in, which run into each other.
() => {
  const found = [];
  const edges = (svg, font) => {
    svg.setAttribute('font-family', font);
    const home = svg.getScreenCTM().inverse();
    return [...svg.querySelectorAll('text, rect')].map((mark) => {
      const b = mark.getBBox(), to = home.multiply(mark.getScreenCTM());
      const corners = [[b.x, b.y], [b.x + b.width, b.y], [b.x, b.y + b.height], [b.x + b.width, b.y + b.height]]
        .map(([x, y]) => new DOMPoint(x, y).matrixTransform(to));
      const xs = corners.map((c) => c.x), ys = corners.map((c) => c.y);
      return {
        words: mark.tagName === 'text' ? mark.textContent.trim() : '',
        box: mark.tagName === 'rect',
        framed: mark.getAttribute('stroke') !== mark.getAttribute('fill'),
        turned: Boolean(mark.getAttribute('transform')),
        left: Math.min(...xs), right: Math.max(...xs), top: Math.min(...ys), bottom: Math.max(...ys),
      };
    });
  };
  const wide = (m) => m.right - m.left, high = (m) => m.bottom - m.top, area = (m) => wide(m) * high(m);
  for (const holder of document.querySelectorAll('[data-key]')) {
    const svg = holder.querySelector('svg');
    const [, , width, height] = svg.getAttribute('viewBox').split(' ').map(Number);
    const least = edges(svg, 'narrow'), most = edges(svg, 'wide');
    const say = (what, words) => found.push(`${holder.dataset.key}: ${what}: ${words}`);
    most.forEach((m, i) => {
      if (!m.words) return;
      // A line's box holds room for accents and tails; that much may lie outside.
      if (m.left < -0.5 || m.right > width + 0.5 || m.top < -high(m) / 4 || m.bottom > height + high(m) / 4)
        say('cut by the edge of the picture', m.words);
      // One or two signs are a figure on a scale or a letter on a part: they stand where their line is.
      if (m.words.length < 3 || m.turned) return;
      const x = (m.left + m.right) / 2, y = (m.top + m.bottom) / 2;
      // Meant to stand in the smallest box below it that it nearly fits in the narrow font; a smaller one is a part it names.
      const boxes = most.slice(0, i).filter((b) => b.box && wide(b) < width - 1 && b.left <= x && x <= b.right &&
        b.top <= y && y <= b.bottom && wide(b) >= 0.8 * wide(least[i]) && high(b) >= 0.6 * high(m));
      const home = boxes.sort((a, b) => area(a) - area(b))[0];
      const room = home?.framed ? 3 : -1;
      if (home && (m.left < home.left + room || m.right > home.right - room)) say('wider than its box', m.words);
      most.slice(i + 1).filter((n) => n.words && !n.turned).forEach((n) => {
        const across = Math.min(m.right, n.right) - Math.max(m.left, n.left);
        const down = Math.min(m.bottom, n.bottom) - Math.max(m.top, n.top);
        if (across > -8 && down > 0.55 * Math.min(high(m), high(n))) say('runs into “' + n.words + '”', m.words);
      });
    });
  }
  return found;
}
