/** The bins in use, offered while one is typed (`list="bins"`). */
export function BinNames({ bins }: { bins: readonly string[] }) {
  return (
    <datalist id="bins">
      {bins.map((bin) => (
        <option key={bin} value={bin} />
      ))}
    </datalist>
  );
}
