// SPDX-License-Identifier: Apache-2.0
using System.Diagnostics;

namespace Heatwright.Cli.Output;

/// <summary>One line on standard error for work that takes over a second, on a terminal only. Removed when the work ends.</summary>
internal sealed class Progress : IDisposable
{
    private readonly Timer? _timer;
    private readonly Stopwatch _clock = Stopwatch.StartNew();
    private readonly Lock _gate = new();
    private string _what;
    private int _shown;
    private bool _ended;

    public Progress(string what)
    {
        _what = what;
        if (!Console.IsErrorRedirected)
        {
            _timer = new Timer(_ => Show(), null, TimeSpan.FromSeconds(1), TimeSpan.FromSeconds(0.25));
        }
    }

    public void Say(string what) => Volatile.Write(ref _what, what);

    public void Dispose()
    {
        _timer?.Dispose();
        lock (_gate)
        {
            _ended = true;
            if (_shown > 0)
            {
                Console.Error.Write("\r" + new string(' ', _shown) + "\r");
            }
        }
    }

    private void Show()
    {
        lock (_gate)
        {
            if (_ended)
            {
                return;
            }

            string line = $"{Volatile.Read(ref _what)} … {_clock.Elapsed.TotalSeconds:F0} s";
            Console.Error.Write("\r" + line.PadRight(_shown));
            _shown = Math.Max(_shown, line.Length);
        }
    }
}
