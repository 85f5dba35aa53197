/** Which closer look to work out. Grows with src/charts: one kind a series function. */
export type LookRequest = { readonly look: "none" };
export type Look = { readonly look: "none" };
