"""The path from file to findings as an engineer would script it with pandas, NumPy and SciPy: the same questions by the same kind of method as
Evenhead's analysis, vectorised wherever NumPy allows it, written as JSON. Usage: whole_path.py LOG.csv (time, pressure psi, flow gpm, speed %).

What it leaves out: finding out what the file is (delimiter, decimal mark, columns, units, clock: they are told here), causes and their weights, advice with
its amounts and cautions, the acceptance sheet, the sentences."""
import json
import sys

import numpy as np
import pandas as pd
from scipy import optimize, signal, stats

PSI, GPM, AIR = 6894.757293168, 6.30901964e-5, 101325.0
SHORT_RUN, DRIFT_LIMIT, LEAST_WAVE = 60.0, 5 * PSI, 0.2 * PSI


def read(path):
    frame = pd.read_csv(path, parse_dates=[0])
    t = (frame.iloc[:, 0] - frame.iloc[0, 0]).dt.total_seconds().to_numpy()
    p, q, s = (frame.iloc[:, c].to_numpy(float) for c in (1, 2, 3))
    return t, p * PSI, q * GPM, s / 100


def runs_of(mask):
    """First index and end of every run of True."""
    edges = np.flatnonzero(np.diff(np.concatenate([[0], mask.astype(np.int8), [0]])))
    return edges.reshape(-1, 2)


def find_faults(t, p):
    step = np.median(np.diff(t))
    gaps = np.flatnonzero(np.diff(t) > 3 * step)
    level = np.r_[False, p[1:] == p[:-1]]
    equal = runs_of(level)
    stuck = equal[(equal[:, 1] - equal[:, 0] >= 20) & (np.mean(level) < 0.2)]
    low, high = np.nanquantile(p, [0.001, 0.999])
    back, on = p[1:-1] - p[:-2], p[1:-1] - p[2:]
    spikes = np.flatnonzero((np.abs(back) > 2 * (high - low)) & (np.abs(on) > 2 * (high - low)) & (back * on > 0)) + 1
    clipped = np.count_nonzero(level & ((p == np.nanmax(p)) | (p == np.nanmin(p))))
    return step, {"gaps": len(gaps), "stuck": len(stuck), "spikes": len(spikes), "clipped": int(clipped)}


def hysteresis(x, low, high):
    """State by two thresholds: held while between them."""
    mark = np.where(x > high, 1, np.where(x < low, 0, -1))
    last = np.maximum.accumulate(np.where(mark >= 0, np.arange(len(x)), 0))
    return mark[last] == 1


def pump_and_draw(t, q, s):
    top = np.quantile(s, 0.9995)
    pump = runs_of(hysteresis(s, 0.1 * top, 0.2 * top))
    most = np.quantile(q, 0.98)
    return pump, runs_of(q < 0.02 * most), most


def cycling(t, p, pump):
    whole = pump[(pump[:, 0] > 0) & (pump[:, 1] < len(t))]
    starts = t[pump[pump[:, 0] > 0, 0]]
    in_hour = np.searchsorted(starts, starts + 3600) - np.arange(len(starts))
    lengths = t[whole[:, 1] - 1] - t[whole[:, 0]]
    hours = t[-1] / 3600
    rate = [stats.chi2.ppf(0.025, 2 * len(starts)) / 2 / hours if len(starts) else 0, stats.chi2.ppf(0.975, 2 * len(starts) + 2) / 2 / hours]
    return {
        "starts": len(starts), "startsPerHour": rate, "mostInAnHour": int(in_hour.max(initial=0)),
        "medianRunS": float(np.median(lengths)) if len(lengths) else None, "short": int(np.count_nonzero(lengths < SHORT_RUN)),
        "cutInPa": float(np.median(p[whole[:, 0]])) if len(whole) else None,
        "cutOutPa": float(np.median(p[whole[:, 1] - 1])) if len(whole) else None,
    }


# oscillation: windows over the rates, a local red background, regularity in time, then least squares on the samples

def neighbour_mean(power, over):
    """Mean power from k / 2.2 to 2.2 k without the tone and its second harmonic, for every window and bin at once, and how many independent bins it rests on."""
    bins = power.shape[1]
    k = np.arange(bins)
    sums = np.concatenate([np.zeros((len(power), 1)), np.cumsum(power, axis=1)], axis=1)
    shield = int(2.5 * over)
    low, high = np.maximum(shield, np.ceil(k / 2.2).astype(int)), np.minimum(bins - 1, (k * 2.2).astype(int))
    high = np.maximum(high, low)
    total, count = sums[:, high + 1] - sums[:, low], (high + 1 - low).astype(float)
    for centre in (k, 2 * k):
        a, b = np.maximum(low, centre - shield), np.minimum(high, centre + shield)
        inside = b >= a
        total -= np.where(inside, sums[:, np.where(inside, b + 1, 0)] - sums[:, np.where(inside, a, 0)], 0)
        count -= np.where(inside, b + 1 - a, 0)
    return total / np.maximum(count, 1), np.maximum(count, 1) / over / 1.5


def regularity(windows):
    """Mean over three standard deviations of the periods between zero crossings of the autocorrelation (Thornhill and others 2003), and that period."""
    n = windows.shape[1]
    spectra = np.abs(np.fft.rfft(windows, 2 * n, axis=1)) ** 2
    acf = np.fft.irfft(spectra, axis=1)[:, :n]
    index, period = np.zeros(len(windows)), np.full(len(windows), np.nan)
    for i, r in enumerate(acf):
        at = np.flatnonzero(r[:-1] * r[1:] < 0)[:11]
        if len(at) < 5:
            continue
        crossings = at + r[at] / (r[at] - r[at + 1])
        periods = 2 * np.diff(crossings)
        index[i], period[i] = periods.mean() / max(3 * periods.std(ddof=1), 1e-12), periods.mean()
    return index, period


def search_level(x, step, length, log_level):
    if len(x) < 1.5 * length:
        return []
    over, taper, found = 2, signal.get_window("hann", length), []
    every = np.lib.stride_tricks.sliding_window_view(x, length)[:: length // 2]
    for first in range(0, len(every), 4096):
        windows = signal.detrend(every[first : first + 4096], axis=1)
        power = np.abs(np.fft.rfft(windows * taper, over * length, axis=1)) ** 2
        background, carried = neighbour_mean(power, over)
        inside = slice(4 * over, power.shape[1] // 2)
        chance = -carried[inside] * np.log1p(power[:, inside] / background[:, inside] / carried[inside])
        best = chance.argmin(axis=1)
        rows = np.arange(len(windows))
        height = power[rows, best + 4 * over]
        loud = (chance[rows, best] < log_level) & (height > (LEAST_WAVE / 2 * length / 4) ** 2)
        if not loud.any():
            continue
        period = over * length / (best[loud] + 4 * over)
        index, seen = regularity(windows[loud])
        for row, of, regular, other, tall in zip(rows[loud], period, index, seen, height[loud]):
            if regular > 1 and abs(other / of - 1) < 0.2:
                start = (first + row) * (length // 2) * step
                found.append((start, start + length * step, of * step, regular, tall))
    return found


def join_windows(found):
    """Windows of nearly one period that overlap become an episode, strongest first."""
    episodes = []
    left = sorted(found, key=lambda w: -w[4] / (w[1] - w[0]) ** 2)
    while left:
        begin, end, period, regular, _ = left[0]
        grown = True
        while grown:
            grown = False
            for a, b, other, _, _ in left:
                if abs(np.log(other / period)) < 0.12 and a <= end and b >= begin and (a < begin or b > end):
                    begin, end, grown = min(a, begin), max(b, end), True
        episodes.append((begin, end, period, regular))
        left = [w for w in left if w[1] <= begin or w[0] >= end]
    return episodes


def refine(t, p, q, begin, end, period):
    """One tone beside a line by least squares, its interval from the noise, and how the flow moves with it."""
    first, last = np.searchsorted(t, [begin, end])
    stride = max(1, min((last - first) // 4000, int(period / 12 / (t[1] - t[0]))))
    n = (last - first) // stride
    if n < 16:
        return None
    at, value, flow = (x[first : first + n * stride].reshape(n, stride).mean(1) for x in (t, p, q))
    centre = at.mean()

    def parts(f):
        w = 2 * np.pi * f * (at - centre)
        columns = np.column_stack([np.ones(n), (at - centre) / (at[-1] - at[0]), np.cos(w), np.sin(w)])
        beta, *_ = np.linalg.lstsq(columns, value, rcond=None)
        return value - columns @ beta, beta

    size = 4 << int(n - 1).bit_length()
    places = np.fft.rfftfreq(size, at[1] - at[0])
    near = np.abs(places * period - 1) < 0.13
    start = places[near][np.abs(np.fft.rfft(signal.detrend(value), size))[near].argmax()] if near.any() else 1 / period
    half = 0.7 / (at[-1] - at[0])
    best = optimize.minimize_scalar(lambda f: np.sum(parts(f)[0] ** 2), bounds=(start - half, start + half), method="bounded",
                                    options={"xatol": 1e-9 / period})
    rest, beta = parts(best.x)
    amplitude = np.hypot(beta[2], beta[3])
    sd = rest.std(ddof=5) * np.sqrt(6 / n) / (np.pi * amplitude * (at[-1] - at[0]))
    reach = sd * stats.t.ppf(0.975, n - 5)
    turned = np.exp(-2j * np.pi * best.x * (at - centre))
    flow_phase = np.angle(np.sum(turned * flow) / np.sum(turned * value))
    return {"from": begin, "to": end, "periodS": [1 / (best.x + reach), 1 / best.x, 1 / max(best.x - reach, best.x / 10)],
            "peakToPeakPa": 2 * amplitude, "share": amplitude ** 2 / 2 / value.var(), "flowLeads": float(flow_phase)}


def oscillation(t, p, q, pump):
    log_level, episodes = np.log(0.001 / len(t)), []
    for a, b in pump:
        if b - a < 64:
            continue
        x, step, begin, found = p[a:b], t[1] - t[0], t[a], []
        found += search_level(x, step, 64, log_level)
        while len(x) > 64:
            found += search_level(x, step, 128, log_level)
            smooth = np.convolve(np.pad(x, (1, 2), mode="edge"), np.array([1, 3, 3, 1]) / 8, mode="valid")
            x, step = smooth[: len(x) // 2 * 2 : 2], 2 * step
        for f, to, period, regular in join_windows(found):
            wave = refine(t, p, q, begin + f, min(begin + to, t[b - 1]), period)
            if wave is not None and wave["peakToPeakPa"] > LEAST_WAVE:
                episodes.append({**wave, "regularity": regular})
    return episodes


# steady draw and drift

def change_points(x, noise, penalty):
    """Binary segmentation on the sum of squares, by prefix sums."""
    sums = np.concatenate([[0], np.cumsum(x)])
    cuts, open_parts = [], [(0, len(x))]
    while open_parts:
        a, b = open_parts.pop()
        if b - a < 4:
            continue
        k = np.arange(a + 1, b)
        gain = (sums[k] - sums[a]) ** 2 / (k - a) + (sums[b] - sums[k]) ** 2 / (b - k) - (sums[b] - sums[a]) ** 2 / (b - a)
        best = gain.argmax()
        if gain[best] > penalty * noise:
            cuts.append(k[best])
            open_parts += [(a, k[best]), (k[best], b)]
    return np.sort(cuts)


def steady_windows(t, q, pump, most, step):
    size = max(1, round(5 / step))
    n = len(q) // size
    means = q[: n * size].reshape(n, size).mean(1)
    drawn = runs_of(means > 0.02 * most)
    noise = max(stats.median_abs_deviation(np.diff(means), scale="normal") ** 2 / 2, (0.01 * most) ** 2)
    windows = []
    for a, b in drawn[drawn[:, 1] - drawn[:, 0] >= 12]:
        edges = [a, *(a + change_points(means[a:b], noise, 3 * np.log(b - a))), b]
        levels = [means[i:j].mean() for i, j in zip(edges, edges[1:])]
        keep = [0] + [i for i in range(1, len(levels)) if abs(levels[i] - levels[i - 1]) > 0.05 * max(levels[i], levels[i - 1])]
        bounds = [edges[i] for i in keep] + [b]
        windows += [(i * size, j * size) for i, j in zip(bounds, bounds[1:])]
    inside = []
    for a, b in windows:
        for c, d in pump[(pump[:, 0] < b) & (pump[:, 1] > a)]:
            from_, to = max(a, c), min(b, d)
            from_ += int(min(20 / step, 0.25 * (to - from_)))
            if (to - from_) * step >= 60:
                inside.append((from_, to))
    return inside


def drift(t, p, windows):
    found = []
    for a, b in windows:
        size = max(1, -(-(b - a) // 128))
        n = (b - a) // size
        x, y = (v[a : a + n * size].reshape(n, size) for v in (t, p))
        apart = y - np.median(y, 1, keepdims=True)
        kept = np.abs(apart) <= 4 * max(stats.median_abs_deviation(apart.ravel(), scale="normal"), 1)
        x, y = x.mean(1), np.sum(y * kept, 1) / np.sum(kept, 1)
        x, y = x[kept.any(1)], y[kept.any(1)]
        n = len(x)
        if n < 12:
            continue
        power = np.abs(np.fft.rfft(signal.detrend(y), 2 * n)) ** 2
        k = power[8 : n - 1].argmax() + 8 if n > 24 else 0
        if k and power[k] > 12 * neighbour_mean(power[None], 2)[0][0, k]:  # a standing wave is taken off first
            w = 2 * np.pi * k / (2 * n) * np.arange(n)
            columns = np.column_stack([np.ones(n), np.arange(n), np.cos(w), np.sin(w)])
            beta, *_ = np.linalg.lstsq(columns, y, rcond=None)
            y = y - columns[:, 2:] @ beta[2:]
        slope, level, low, high = stats.theilslopes(y, x)
        rest = y - level - slope * x
        r = min(0.98, max(0, np.corrcoef(rest[1:], rest[:-1])[0, 1] + (2 + 4 * 0.5) / n))
        wide = np.sqrt((1 + r) / (1 - r))
        length = t[b - 1] - t[a]
        change = [length * (slope - wide * (slope - low)), length * slope, length * (slope + wide * (high - slope))]
        found.append({"from": t[a], "to": t[b - 1], "changePa": change, "over": change[0] > DRIFT_LIMIT or change[2] < -DRIFT_LIMIT})
    return found


def tracking(t, p, q, running, step):
    held = p[running]
    counts, edges = np.histogram(held, 400)
    set_pressure = edges[counts.argmax()] + (edges[1] - edges[0]) / 2
    band = 3 * PSI
    blocks = (np.abs(held - set_pressure) <= band)[: len(held) // 600 * 600].reshape(-1, 600).mean(1)
    share = stats.bootstrap((blocks,), np.mean, n_resamples=500, method="percentile", random_state=1).confidence_interval if len(blocks) > 2 else (0, 1)
    dips = runs_of(running & (p < set_pressure - 2 * band))
    worst = min((p[a:b].min() for a, b in dips), default=set_pressure)
    flowing = running & (q > 0)
    droop = stats.linregress(q[flowing], p[flowing])
    errors = np.where(running, p / set_pressure - 1, np.nan)
    lags = [round(s / step) for s in (4, 6, 8, 12, 16, 20, 24, 32, 40, 48, 64, 96, 128)]
    memory = [float(np.nanmean(errors[lag:] * errors[:-lag])) for lag in lags]
    return {"setPressurePa": set_pressure, "withinBand": float(np.mean(np.abs(held - set_pressure) <= band)), "interval": list(share), "dips": len(dips),
            "worstDipPa": set_pressure - worst, "droopPaPerM3s": droop.slope, "memoryOfErrors": memory}


# the tank: 1/p on the volume drawn at rest, gas that cools and warms, leaks

def gas_heat(p, tau, step):
    """Excess temperature of the gas by its own pressure: d theta = 2/7 d ln p - theta dt / (1.4 tau)."""
    kept = np.exp(-step / (1.4 * tau))
    rise = np.diff(np.log(p + AIR), prepend=np.log(p[0] + AIR))
    return signal.lfilter([2 / 7 * np.sqrt(kept)], [1, -kept], rise)


def pooled(slopes):
    slopes = np.asarray(slopes)
    slopes = slopes[np.abs(slopes - np.median(slopes)) < 4 * stats.median_abs_deviation(slopes, scale="normal") + 1e-30]
    reach = stats.t.ppf(0.975, len(slopes) - 1) * slopes.std(ddof=1) / np.sqrt(len(slopes))
    return slopes.mean(), slopes.mean() - reach, slopes.mean() + reach


def tank(t, p, q, pump, step):
    volume = np.concatenate([[0], np.cumsum((q[1:] + q[:-1]) / 2 * np.diff(t))])
    rests = np.column_stack([pump[:-1, 1], pump[1:, 0]])
    rests = [(a + int(3 / step), b) for a, b in rests if b - a > 10 and volume[b - 1] - volume[a] > 1e-4]
    if len(rests) < 3:
        return None
    rests = [np.unique(np.linspace(a, b - 1, min(120, b - a)).astype(int)) for a, b in rests]
    best = None
    for tau in (0, 5, 10, 20, 40, 80, 160, 320):
        theta = gas_heat(p, tau, step) if tau else np.zeros(len(p))
        for share in (1, 0.75, 0.5, 0.25) if tau else (1,):
            slopes, left, total = [], 0, 0
            for i in rests:
                columns = np.column_stack([volume[i], q[i], np.ones(len(i))])
                y = (1 + share * theta[i]) / (p[i] + AIR)
                beta, *_ = np.linalg.lstsq(columns, y, rcond=None)
                slopes.append(beta[0])
                left += np.sum((y - columns @ beta) ** 2)
                total += np.sum((y - y.mean()) ** 2)
            if best is None or left / total < best[0]:
                best = (left / total, tau, share, slopes, theta)
    _, tau, share, slopes, theta = best
    slope, low, high = pooled(slopes)
    knees = []
    for i in rests:
        y = (1 + share * theta[i]) / (p[i] + AIR)
        half = volume[i] <= (volume[i[0]] + volume[i[-1]]) / 2
        above = y - slope * (volume[i] - volume[i[0]]) - np.median((y - slope * (volume[i] - volume[i[0]]))[half])
        away = np.flatnonzero(above[::-1] <= 6 * np.std(above[half]) + 0.2 * slope * (volume[i[-1]] - volume[i[0]]))
        if len(away) and 0 < away[0] < len(i) - 3:
            knees.append(1 / y[len(i) - away[0]] - AIR)
    return {"gasConstantJ": [1 / high, 1 / slope, 1 / low], "heatTimeS": tau, "heatShare": share,
            "emptiesAtPa": float(np.median(knees)) if len(knees) > 2 else None, "theta": theta}


def leak(t, p, pump, idle, theta, step):
    resting = np.ones(len(t), bool)
    for a, b in pump:
        resting[a:b] = False
    quiet = np.zeros(len(t), bool)
    for a, b in idle:
        quiet[a:b] = True
    spans = [(a + int(30 / step), b) for a, b in runs_of(resting & quiet) if (b - a) * step >= 90]
    slopes = []
    for a, b in spans:
        size = -(-(b - a) // 40)
        n = (b - a) // size
        y = ((p[a : a + n * size] + AIR) / (1 + theta[a : a + n * size])).reshape(n, size).mean(1)
        slopes.append(stats.theilslopes(1 / y, t[a : a + n * size].reshape(n, size).mean(1))[0])
    return None if len(slopes) < 2 else pooled(slopes)


def sensor(t, p, q):
    bends = np.diff(p, 2)
    n = len(bends) // 16
    noise = np.sort(bends[: n * 16].reshape(n, 16) ** 2, axis=1)[:, :12].mean(1) / (0.496 * 6)
    flow = q[: n * 16].reshape(n, 16)
    steady = np.ptp(flow, axis=1) < 0.15 * flow.max(1) + 1e-12
    line = stats.linregress(flow.mean(1)[steady] ** 4, noise[steady]) if steady.sum() > 12 and np.ptp(flow[steady]) > 0 else None
    dp, dq = np.diff(p), np.diff(q)
    lags = np.arange(-20, 21)
    with_lag = [float(np.mean(dp[20:-20] * dq[20 + k : len(dq) - 20 + k])) for k in lags]
    return {"noisePa": float(np.sqrt(np.median(noise))), "growsWithFlow": None if line is None else bool(line.slope > 2 * line.stderr),
            "lagS": float(lags[np.argmin(with_lag)])}


def pump_performance(t, p, q, s, running, step):
    minute = pd.Series(q).rolling(round(60 / step)).mean().max()
    full = runs_of(s > 0.97 * max(1, s.max()))
    low = running & (p < 0.4 * np.median(p[running])) & (q < 0.1 * np.median(q[running]))
    short = running & (p < 0.94 * np.median(p[running]))
    return {"highestMinuteM3s": float(minute), "fullSpeedSpans": len(full), "collapses": len([1 for a, b in runs_of(low) if (b - a) * step >= 8]),
            "shortS": float(short.sum() * step), "flowWhenShort": float(np.median(q[short])) if short.any() else None}


def demand(path_start, t, q, step):
    flow = pd.Series(q * step, index=path_start + pd.to_timedelta(t, unit="s"))
    by_hour = flow.groupby(flow.index.hour).sum()
    night = flow.between_time("01:00", "05:00").rolling("1h").mean().min() / step
    return {"perDayM3": flow.resample("D").sum().tolist(), "byHourM3": by_hour.tolist(), "nightFlowM3s": float(night)}


def main(path):
    t, p, q, s = read(path)
    step, faults = find_faults(t, p)
    grid = np.arange(t[0], t[-1] + step / 2, step)
    p, q, s = (np.interp(grid, t, x) for x in (p, q, s))
    t = grid
    pump, idle, most = pump_and_draw(t, q, s)
    running = np.zeros(len(t), bool)
    for a, b in pump:
        running[a:b] = True
    found = tank(t, p, q, pump, step) if len(pump) > 3 else None
    theta = np.zeros(len(t)) if found is None else found.pop("theta") * found["heatShare"]
    print(json.dumps({
        "faults": faults,
        "overMarked": bool(p.max() > 125 * PSI),
        "cycling": cycling(t, p, pump),
        "oscillation": oscillation(t, p, q, pump),
        "drift": drift(t, p, steady_windows(t, q, pump, most, step)),
        "tracking": tracking(t, p, q, running, step),
        "tank": found,
        "leak": leak(t, p, pump, idle, theta, step),
        "sensor": sensor(t, p, q),
        "pump": pump_performance(t, p, q, s, running, step),
        "demand": demand(pd.Timestamp("2026-01-05"), t, q, step),
        "trace": [[float(x.min()), float(x.max())] for x in np.array_split(p, 2000)],
    }, default=float))


main(sys.argv[1])
