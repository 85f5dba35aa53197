/** What the keys do on the trace; the same list for everybody who asks. */
const KEYS: readonly (readonly [string, string])[] = [
  ["Left, right", "move by a tenth"],
  ["Page up, page down", "move by a whole window"],
  ["Home, end", "beginning and end of the record"],
  ["Up or +, down or \u2212", "closer, wider"],
  ["0", "the whole record"],
  ["Shift with left, right", "move the reading line"],
  ["M, M", "measure from here, to here"],
  ["Escape", "put reading line and measurement away"],
];

/** Keys on the trace, and what hands do there. */
export function Keys() {
  return (
    <section aria-labelledby="keys">
      <h3 id="keys">On the trace</h3>
      <table className="keys small">
        <tbody>
          {KEYS.map(([keys, does]) => (
            <tr key={keys}>
              <th scope="row">{keys}</th>
              <td>{does}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p className="small">
        The wheel or two fingers zoom, dragging moves, Shift with dragging goes into a stretch, a double click goes closer. The keys work
        once the trace has the focus: press Tab until it is framed.
      </p>
    </section>
  );
}
