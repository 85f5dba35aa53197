import type { StoryProps } from "../view-props";

/** How the files were understood, with every column and question open to change. Lies over the page as a sheet. */
export function Review({ visit }: StoryProps) {
  return (
    <ul>
      {visit.outline.columns.map((column) => (
        <li key={column.index}>
          {column.heading}: {column.role} {column.unit}
        </li>
      ))}
    </ul>
  );
}
