/** A field for a PIN. fresh: one that is being chosen, not one that is known. */
export function PinField({
  label,
  value,
  onType,
  fresh = false,
}: {
  label: string;
  value: string;
  onType: (text: string) => void;
  fresh?: boolean;
}) {
  return (
    <label class="field">
      {label}
      <input
        type="password"
        inputMode="numeric"
        autocomplete={fresh ? "new-password" : "current-password"}
        value={value}
        onInput={(event) => onType(event.currentTarget.value)}
      />
    </label>
  );
}
