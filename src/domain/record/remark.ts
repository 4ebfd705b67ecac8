/** A sentence to be said at once, and whether it stands against the numbers. */
export type Remark = { readonly against: boolean; readonly says: string };
