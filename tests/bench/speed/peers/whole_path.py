"""The path an engineer would script: read, clean, cycles from speed, spectra in windows, slopes over steady flow. pandas + SciPy, vectorised."""
import sys
import numpy as np
import pandas as pd
from scipy import signal, stats

frame = pd.read_csv(sys.argv[1], parse_dates=[0])
t = frame.iloc[:, 0].astype("int64").to_numpy() / 1e9
p, q, s = (frame.iloc[:, c].to_numpy(float) for c in (1, 2, 3))
grid = np.arange(t[0], t[-1] + 1)
p, q, s = (np.interp(grid, t, x) for x in (p, q, s))

on = s > 0.5 * np.nanmax(s)
edges = np.flatnonzero(np.diff(on.astype(int)))
starts = edges[~on[edges]]
hour = np.searchsorted(starts, starts + 3600) - np.arange(len(starts))
print("starts", len(starts), "most in an hour", hour.max() if len(hour) else 0)

N = 1024
windows = np.lib.stride_tricks.sliding_window_view(p, N)[:: N // 2]
windows = signal.detrend(windows, axis=1)
f, power = signal.welch(windows, nperseg=N, axis=1)
peak = power[:, 4:].argmax(1) + 4
spectra = np.abs(np.fft.rfft(windows, 2 * N, axis=1)) ** 2
acf = np.fft.irfft(spectra, axis=1)[:, :N]
acf /= acf[:, :1]
crossings = (np.diff(np.signbit(acf[:, : N // 2]), axis=1)).sum(1)
print("windows", len(windows), "median peak period", 1 / f[np.median(peak).astype(int)], "median crossings", np.median(crossings))

change = np.abs(pd.Series(q).rolling(60).mean().diff(60).to_numpy()) < 0.5
runs = np.flatnonzero(np.diff(np.concatenate([[0], change.astype(int), [0]])))
for a, b in runs.reshape(-1, 2)[:200]:
    if b - a >= 120:
        step = max(1, (b - a) // 300)
        stats.theilslopes(p[a:b:step], grid[a:b:step])
print("steady stretches", len(runs) // 2)
