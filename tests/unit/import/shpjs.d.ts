declare module 'shpjs' {
  /** The shapes of a .shp, in its own coordinates where no projection is given. */
  export function parseShp(
    shp: DataView,
    projection?: unknown,
  ): readonly ({ readonly type: string; readonly coordinates: unknown } | null)[];
}
