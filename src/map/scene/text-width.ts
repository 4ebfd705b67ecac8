import type { Face } from './scene';

/**
 * Advance widths of the family's letters in thousandths of its size, read from
 * its own files in a browser, without kerning. A test in the browser holds
 * them against what the page really sets, so that labels can be placed by pure code.
 */
const PRINTABLE =
  ' !"#$%&\'()*+,-./0123456789:;<=>?@ABCDEFGHIJKLMNOPQRSTUVWXYZ[\\]^_`abcdefghijklmnopqrstuvwxyz{|}~°±µ·×–—′″−';

// prettier-ignore
const WIDTHS: Readonly<Record<Face, readonly number[]>> = {
  regular: [
    200, 289, 426, 497, 497, 824, 609, 249, 303, 303, 418, 497, 249, 311, 249, 350, 497, 497, 497,
    497, 497, 497, 497, 497, 497, 497, 249, 249, 497, 497, 497, 425, 847, 543, 588, 571, 615, 527,
    494, 617, 652, 263, 479, 579, 486, 727, 647, 664, 566, 664, 569, 534, 536, 645, 515, 786, 513,
    476, 539, 303, 350, 303, 497, 500, 542, 504, 553, 456, 555, 496, 292, 504, 544, 246, 247, 495,
    255, 829, 547, 542, 555, 555, 347, 419, 338, 544, 467, 719, 446, 467, 425, 303, 241, 303, 497,
    331, 497, 562, 249, 497, 480, 800, 249, 426, 497,
  ],
  semibold: [
    200, 315, 482, 513, 513, 841, 639, 275, 324, 324, 438, 513, 275, 322, 275, 344, 513, 513, 513,
    513, 513, 513, 513, 513, 513, 513, 275, 275, 513, 513, 513, 444, 875, 558, 597, 576, 625, 538,
    510, 628, 663, 282, 494, 597, 502, 745, 657, 674, 582, 674, 592, 545, 546, 655, 536, 800, 541,
    501, 540, 324, 344, 324, 513, 500, 549, 516, 563, 462, 564, 507, 317, 520, 558, 262, 263, 522,
    271, 843, 560, 549, 564, 564, 373, 431, 361, 556, 495, 748, 481, 495, 443, 324, 255, 324, 513,
    348, 513, 578, 275, 513, 480, 800, 275, 482, 513,
  ],
  italic: [
    200, 282, 407, 479, 480, 791, 582, 242, 291, 293, 403, 480, 242, 299, 242, 340, 479, 480, 480,
    480, 480, 480, 480, 480, 480, 480, 242, 242, 480, 480, 480, 409, 814, 510, 569, 550, 594, 502,
    473, 588, 623, 249, 456, 555, 462, 705, 619, 633, 550, 633, 555, 506, 510, 616, 496, 756, 490,
    461, 512, 292, 340, 292, 479, 483, 517, 536, 536, 435, 535, 480, 282, 530, 523, 237, 238, 476,
    248, 799, 525, 514, 535, 534, 342, 402, 324, 522, 448, 707, 429, 448, 410, 290, 231, 293, 480,
    313, 480, 519, 242, 480, 463, 769, 242, 407, 480,
  ],
};

/** For a letter not in the table: as wide as a wide one, so that nothing is cut. */
const UNKNOWN = 800;

/** Width of words in px; of the longest line where there are several. */
export function textWidth(text: string, size: number, face: Face): number {
  const lines = text
    .split('\n')
    .map((line) =>
      Array.from(line).reduce(
        (sum, letter) => sum + (WIDTHS[face][PRINTABLE.indexOf(letter)] ?? UNKNOWN),
        0,
      ),
    );
  return (Math.max(...lines) * size) / 1000;
}

/** Heights over and under the baseline in sizes: of a capital, and of the tail of a g. */
export const CAPITAL = 0.66;
export const TAIL = 0.21;

/** From one baseline to the next, in sizes. */
export const LEADING = 1.2;
