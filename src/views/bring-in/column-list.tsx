import { useId } from "react";
import type { ImportChoices } from "../../../analysis/import/import-log";
import { CHANNEL_ROLES, type ChannelRole } from "../../../shared/record/channel-role";
import type { FileLayout } from "../../../shared/record/file-layout";
import { formatNumber } from "../../../shared/units/format-quantity";
import { COLUMN_WORDS } from "../../../shared/wording/bring-in";
import { sayCertainty } from "../../../shared/wording/certainty";
import { sayRole } from "../../../shared/wording/channel-role";
import { sayColumnReason } from "../../../shared/wording/column-reason";
import { chooseColumn, forgetColumn, withChoices } from "./choices";
import { picturePath } from "./picture";
import { unitChoices } from "./unit-choices";

type Column = FileLayout["columns"][number];
type Props = {
  readonly layout: FileLayout;
  readonly choices: ImportChoices;
  readonly locale: string | null;
  readonly onChoices: (choices: ImportChoices) => void;
};

/** Each column with what it was taken for and why; role and unit can be changed, and the list follows before the file is read again. */
export function ColumnList({ layout, choices, locale, onChoices }: Props) {
  const chosen = new Set(choices.columns.map(({ heading }) => heading));
  return (
    <ul className="column-list">
      {withChoices(layout, choices).columns.map((column) => (
        <ColumnRow
          key={column.index}
          column={column}
          locale={locale}
          isChosen={chosen.has(column.heading)}
          onChoose={(role, unit) => onChoices(chooseColumn(choices, column.heading, role, unit))}
          onForget={() => onChoices(forgetColumn(choices, column.heading))}
        />
      ))}
    </ul>
  );
}

type RowProps = {
  readonly column: Column;
  readonly locale: string | null;
  readonly isChosen: boolean;
  readonly onChoose: (role: ChannelRole, unit: string | null) => void;
  readonly onForget: () => void;
};

function ColumnRow({ column, locale, isChosen, onChoose, onForget }: RowProps) {
  const id = useId();
  const heading = column.heading === "" ? COLUMN_WORDS.noHeading(column.index + 1) : column.heading;
  const units = unitChoices(column);
  return (
    <li className="column" data-doubtful={column.certainty < 0.8}>
      <h4>
        <bdi>{heading}</bdi>
      </h4>
      <ColumnPicture column={column} locale={locale} />
      <div className="column-controls">
        <label htmlFor={`${id}-role`}>{COLUMN_WORDS.is}</label>
        <select
          id={`${id}-role`}
          aria-label={COLUMN_WORDS.standsFor(heading)}
          value={column.role}
          onChange={(e) => onChoose(asRole(e.target.value), null)}
        >
          {CHANNEL_ROLES.map((role) => (
            <option key={role} value={role}>
              {sayRole(role)}
            </option>
          ))}
        </select>
        {units.length === 0 ? null : (
          <>
            <label htmlFor={`${id}-unit`}>{COLUMN_WORDS.in}</label>
            <select
              id={`${id}-unit`}
              aria-label={COLUMN_WORDS.unitOf(heading)}
              value={column.unit ?? ""}
              onChange={(e) => onChoose(column.role, e.target.value || null)}
            >
              <option value="">{COLUMN_WORDS.unitNotKnown}</option>
              {units.map((unit) => (
                <option key={unit} value={unit}>
                  {unit}
                </option>
              ))}
            </select>
          </>
        )}
        {isChosen ? (
          <button type="button" className="button-quiet" onClick={onForget}>
            {COLUMN_WORDS.takeBack}
          </button>
        ) : null}
      </div>
      <p className="column-reason">
        <strong>{sayCertainty(column.certainty)}</strong>: {sayColumnReason(column.reason, locale)}
      </p>
    </li>
  );
}

const asRole = (text: string): ChannelRole => CHANNEL_ROLES.find((role) => role === text) ?? "other";

function ColumnPicture({ column, locale }: { readonly column: Column; readonly locale: string | null }) {
  const path = picturePath(column.picture, 120, 28);
  const range =
    column.range === null ? COLUMN_WORDS.noNumbers : COLUMN_WORDS.range(plain(column.range.low, locale), plain(column.range.high, locale));
  return (
    <div className="column-picture">
      {path === null ? null : (
        <svg viewBox="-1 -2 122 32" aria-hidden="true" focusable="false">
          <path d={path} fill="none" vectorEffect="non-scaling-stroke" />
        </svg>
      )}
      <span className="column-range">{range}</span>
    </div>
  );
}

/** A value as the file has it, without a tail of digits that came from arithmetic. */
function plain(value: number, locale: string | null): string {
  const [, fraction = ""] = String(Number(value.toPrecision(4))).split(".");
  const decimals = fraction.includes("e") ? 4 : Math.min(4, fraction.length);
  return formatNumber(value, decimals, locale);
}
