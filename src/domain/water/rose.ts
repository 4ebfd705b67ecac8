/** How many directions fall in each of equal sectors, the first centred on north, clockwise. */
export function directionRose(azimuths: Iterable<number>, sectors = 36): number[] {
  const counts = new Array<number>(sectors).fill(0);
  const width = 360 / sectors;
  for (const azimuth of azimuths) {
    if (!Number.isFinite(azimuth)) continue;
    const sector = Math.floor((((azimuth + width / 2) % 360) + 360) / width) % sectors;
    counts[sector] = (counts[sector] ?? 0) + 1;
  }
  return counts;
}
