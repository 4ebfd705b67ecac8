/** How colours look to eyes without one kind of cone, and in grey. */

/** Red, green, blue, each 0 to 255. */
export type Rgb = readonly [number, number, number];

type Matrix = readonly (readonly [number, number, number])[];

/**
 * Full severity, on linear RGB: G. M. Machado, M. M. Oliveira and L. A. F.
 * Fernandes, 2009, A physiologically-based model for simulation of color vision
 * deficiency, IEEE Transactions on Visualization and Computer Graphics 15(6),
 * 1291-1298 (values from memory; a test holds them against Chromium's own).
 * Grey is the luminance of Rec. ITU-R BT.709.
 */
export const VISIONS = {
  protanopia: [
    [0.152286, 1.052583, -0.204868],
    [0.114503, 0.786281, 0.099216],
    [-0.003882, -0.048116, 1.051998],
  ],
  deuteranopia: [
    [0.367322, 0.860646, -0.227968],
    [0.280085, 0.672501, 0.047413],
    [-0.01182, 0.04294, 0.968881],
  ],
  tritanopia: [
    [1.255528, -0.076749, -0.178779],
    [-0.078411, 0.930809, 0.147602],
    [0.004733, 0.691367, 0.3039],
  ],
  achromatopsia: [
    [0.2126, 0.7152, 0.0722],
    [0.2126, 0.7152, 0.0722],
    [0.2126, 0.7152, 0.0722],
  ],
} as const satisfies Record<string, Matrix>;

export type Vision = keyof typeof VISIONS;

/** Of sRGB: IEC 61966-2-1. */
const linear = (channel: number) => {
  const c = channel / 255;
  return c <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
};
const encoded = (light: number) => {
  const c = Math.min(1, Math.max(0, light));
  return 255 * (c <= 0.0031308 ? 12.92 * c : 1.055 * c ** (1 / 2.4) - 0.055);
};

export function seenAs(vision: Vision, [r, g, b]: Rgb): Rgb {
  const [x, y, z] = [linear(r), linear(g), linear(b)];
  const row = ([p, q, s]: readonly [number, number, number]) => encoded(p * x + q * y + s * z);
  const [one, two, three] = VISIONS[vision];
  return [row(one), row(two), row(three)];
}

/** Lightness 0 to 1 as the eye grades it, near enough: the encoded luminance. */
export const lightness = ([r, g, b]: Rgb): number =>
  encoded(0.2126 * linear(r) + 0.7152 * linear(g) + 0.0722 * linear(b)) / 255;
