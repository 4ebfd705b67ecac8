/** Dots to the inch a picture can be had at. */
export const DENSITIES = [96, 150, 200, 300, 600] as const;
