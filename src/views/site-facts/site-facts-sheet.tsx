import type { PageProps } from "../view-props";

/** The site facts as a person writes them, checked as they are typed. Lies over the page as a sheet. */
export function SiteFactsSheet({ state }: PageProps) {
  return <p>{state.site.facts.name ?? "No site facts yet."}</p>;
}
