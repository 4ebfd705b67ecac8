import {
  FAMILY,
  LINES,
  PALETTES,
  RADIUS,
  SIZES,
  SPACES,
  TARGET,
  WEIGHTS,
  type Palette,
} from './look';

const colours = (palette: Palette) =>
  Object.entries(palette).map(([role, colour]) => `--${role}: ${colour};`);

const rule = (selector: string, lines: readonly string[]) =>
  `${selector} {\n${lines.map((line) => `  ${line}\n`).join('')}}\n`;

/** In rem, so that a wall or a person's own setting makes everything larger at once. */
const rem = (px: number) => `${px / 16}rem`;

/** The design as CSS custom properties: the text of `ui/look/tokens.css`. */
export const tokensCss = () =>
  [
    '/* Written from src/map/look/look.ts; a test holds the two equal. */\n',
    rule(':root', [
      `--family: '${FAMILY}', system-ui, sans-serif;`,
      ...Object.entries(SIZES).map(([name, px]) => `--text-${name}: ${rem(px)};`),
      ...Object.entries(WEIGHTS).map(([name, weight]) => `--weight-${name}: ${weight};`),
      ...Object.entries(SPACES).map(([name, px]) => `--space-${name}: ${rem(px)};`),
      ...Object.entries(LINES).map(([name, px]) => `--line-${name}: ${px}px;`),
      `--radius: ${RADIUS}px;`,
      `--target: ${rem(TARGET)};`,
    ]),
    rule(":root,\n[data-theme='bright']", ['color-scheme: light;', ...colours(PALETTES.bright)]),
    rule("[data-theme='dark']", ['color-scheme: dark;', ...colours(PALETTES.dark)]),
  ].join('\n');
