import { KEYS_WORDS, TRACE_KEYS } from "../../shared/wording/trace";

/** Keys on the trace, and what hands do there. */
export function Keys() {
  return (
    <section aria-labelledby="keys">
      <h3 id="keys">{KEYS_WORDS.title}</h3>
      <table className="keys small">
        <tbody>
          {TRACE_KEYS.map(([keys, does]) => (
            <tr key={keys}>
              <th scope="row">{keys}</th>
              <td>{does}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p className="small">{KEYS_WORDS.hands}</p>
      <p className="small">{KEYS_WORDS.elsewhere}</p>
    </section>
  );
}
