import { type ReactNode, useId } from "react";

type Props = {
  readonly label: ReactNode;
  readonly value: string;
  readonly options: readonly { readonly value: string; readonly text: string }[];
  readonly hint?: string;
  readonly fieldId?: string;
  readonly onChange: (value: string) => void;
};

/** One of a few words, with its label: the native select. */
export function ChoiceField({ label, value, options, hint, fieldId, onChange }: Props) {
  const ownId = useId();
  const id = fieldId ?? ownId;
  return (
    <div className="field">
      <label htmlFor={id}>{label}</label>
      <select
        id={id}
        value={value}
        aria-describedby={hint === undefined ? undefined : `${id}-hint`}
        onChange={(e) => onChange(e.target.value)}
      >
        {options.map((option) => (
          <option key={option.value} value={option.value}>
            {option.text}
          </option>
        ))}
      </select>
      {hint === undefined ? null : (
        <p id={`${id}-hint`} className="field-hint">
          {hint}
        </p>
      )}
    </div>
  );
}
