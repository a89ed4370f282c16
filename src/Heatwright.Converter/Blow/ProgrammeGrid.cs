// SPDX-License-Identifier: Apache-2.0
using System.Runtime.Intrinsics;
using static Heatwright.Converter.Blow.LaneMath;

namespace Heatwright.Converter.Blow;

/// <summary>
/// The practice cut into steps: each lane has its own number and length of steps; within a step every set point is its mean over
/// the step, so that oxygen and weighed additions are exact. A lane that is finished has steps of length zero.
/// </summary>
internal sealed class ProgrammeGrid
{
    private const int Fields = 6;
    private Vector256<double>[] _rows = [];
    private Vector256<double>[] _feeds = [];
    private int _fluxes;

    /// <summary>Steps of the longest lane.</summary>
    public int Steps { get; private set; }

    /// <summary>Step length, s.</summary>
    public Vector256<double> Dt(int step) => _rows[step * Fields];

    /// <summary>Oxygen metered up to the end of the step over the oxygen planned, %.</summary>
    public Vector256<double> Percent(int step) => _rows[(step * Fields) + 5];

    public Vector256<double> OxygenNm3PerS(int step) => _rows[(step * Fields) + 1];

    public Vector256<double> LanceM(int step) => _rows[(step * Fields) + 2];

    public Vector256<double> BottomNm3PerS(int step) => _rows[(step * Fields) + 3];

    public Vector256<double> BottomNitrogen(int step) => _rows[(step * Fields) + 4];

    public Vector256<double> Feed(int step, int flux) => _feeds[(step * _fluxes) + flux];

    /// <summary>The different materials of a programme in order of first use: the flux slots.</summary>
    public static IReadOnlyList<FluxMaterial> Slots(HeatInput heat)
    {
        var slots = new List<FluxMaterial>();
        foreach (Addition a in heat.Programme.Additions)
        {
            if (!slots.Contains(a.Material))
            {
                slots.Add(a.Material);
            }
        }

        if (slots.Count > HeatInput.MaxFluxes)
        {
            throw new ArgumentException($"The programme uses {slots.Count} different additions; at most {HeatInput.MaxFluxes} are possible. Leave some out or merge their lots.", nameof(heat));
        }

        return slots;
    }

    /// <summary>Oxygen flow over time as the integral needs it.</summary>
    public static double BlowTimeS(BlowProgramme p)
    {
        double time = 0;
        double end = 100 * p.BlownFraction;
        for (int i = 0; i < p.OxygenFlowNm3PerS.Count; i++)
        {
            double from = Math.Max(0, p.OxygenFlowNm3PerS[i].OxygenPercent);
            double to = i + 1 < p.OxygenFlowNm3PerS.Count ? Math.Min(p.OxygenFlowNm3PerS[i + 1].OxygenPercent, end) : end;
            if (to > from)
            {
                time += (to - from) / 100 * p.OxygenNm3 / p.OxygenFlowNm3PerS[i].Value;
            }
        }

        return time;
    }

    /// <summary>Fills the grid for up to four heats.</summary>
    public void Build(ReadOnlySpan<HeatInput> heats, double stepS)
    {
        int longest = 0;
        int fluxes = 0;
        Span<int> blowSteps = stackalloc int[Lanes];
        Span<int> waitSteps = stackalloc int[Lanes];
        Span<int> stirSteps = stackalloc int[Lanes];
        for (int lane = 0; lane < heats.Length; lane++)
        {
            BlowProgramme p = heats[lane].Programme;
            waitSteps[lane] = (int)Math.Ceiling(p.ChargeToBlowS / (2 * stepS));
            blowSteps[lane] = Math.Max(1, (int)Math.Ceiling(BlowTimeS(p) / stepS));
            stirSteps[lane] = (int)Math.Ceiling(p.AfterStirS / (2 * stepS));
            longest = Math.Max(longest, waitSteps[lane] + blowSteps[lane] + stirSteps[lane]);
            fluxes = Math.Max(fluxes, Slots(heats[lane]).Count);
        }

        _fluxes = Math.Max(1, fluxes);
        Steps = longest;
        if (_rows.Length < longest * Fields)
        {
            _rows = new Vector256<double>[longest * Fields];
        }

        if (_feeds.Length < longest * _fluxes)
        {
            _feeds = new Vector256<double>[longest * _fluxes];
        }

        Array.Clear(_rows, 0, longest * Fields);
        Array.Clear(_feeds, 0, longest * _fluxes);
        for (int lane = 0; lane < Lanes; lane++)
        {
            int source = Math.Min(lane, heats.Length - 1);
            Fill(lane, heats[source], waitSteps[source], blowSteps[source], stirSteps[source]);
        }
    }

    private void Fill(int lane, HeatInput heat, int wait, int blow, int stir)
    {
        BlowProgramme p = heat.Programme;
        double blowS = BlowTimeS(p);
        double dt = blowS / blow;
        var bottom = new Cursor(p.Stirring.Count);
        var lance = new Cursor(p.LanceHeightM.Count);
        var flow = new Cursor(p.OxygenFlowNm3PerS.Count);
        int step = 0;
        double firstBottom = p.Stirring.Count > 0 ? p.Stirring[0].FlowNm3PerS : 0;
        double firstNitrogen = p.Stirring.Count > 0 && p.Stirring[0].Gas == StirringGas.Nitrogen ? 1 : 0;
        for (int i = 0; i < wait; i++, step++)
        {
            SetRow(lane, step, p.ChargeToBlowS / wait, 0, First(p.LanceHeightM), firstBottom, firstNitrogen, 0);
        }

        double total = p.OxygenNm3 * p.BlownFraction;
        double blown = 0;
        for (int i = 0; i < blow; i++, step++)
        {
            // Oxygen over the step by walking through the flow set points.
            double left = dt;
            double before = blown;
            while (left > 1e-12)
            {
                double percent = 100 * blown / p.OxygenNm3;
                flow.Advance(p.OxygenFlowNm3PerS, percent);
                double rate = p.OxygenFlowNm3PerS[flow.Index].Value;
                double untilNext = flow.Index + 1 < p.OxygenFlowNm3PerS.Count
                    ? ((p.OxygenFlowNm3PerS[flow.Index + 1].OxygenPercent / 100 * p.OxygenNm3) - blown) / rate
                    : double.MaxValue;
                double take = Math.Min(left, Math.Max(untilNext, 1e-9));
                blown += rate * take;
                left -= take;
            }

            if (i == blow - 1)
            {
                blown = total;
            }

            double middle = 50 * (before + blown) / p.OxygenNm3;
            lance.Advance(p.LanceHeightM, middle);
            while (bottom.Index + 1 < p.Stirring.Count && p.Stirring[bottom.Index + 1].OxygenPercent <= middle)
            {
                bottom.Index++;
            }

            double stirring = p.Stirring.Count > 0 ? p.Stirring[bottom.Index].FlowNm3PerS : 0;
            double nitrogen = p.Stirring.Count > 0 && p.Stirring[bottom.Index].Gas == StirringGas.Nitrogen ? 1 : 0;
            SetRow(lane, step, dt, (blown - before) / dt, p.LanceHeightM[lance.Index].Value, stirring, nitrogen, 100 * blown / p.OxygenNm3);
        }

        for (int i = 0; i < stir; i++, step++)
        {
            SetRow(lane, step, p.AfterStirS / stir, 0, First(p.LanceHeightM), p.AfterStirNm3PerS, 0, 100 * p.BlownFraction);
        }

        FillFeeds(lane, heat, wait, blow, dt);
    }

    private void FillFeeds(int lane, HeatInput heat, int wait, int blow, double dt)
    {
        BlowProgramme p = heat.Programme;
        IReadOnlyList<FluxMaterial> slots = Slots(heat);
        foreach (Addition a in p.GivenAdditions.Where(a => a.MassKg > 0))
        {
            int slot = 0;
            while (!ReferenceEquals(slots[slot], a.Material) && !slots[slot].Equals(a.Material))
            {
                slot++;
            }

            double start = a.OxygenPercent <= 0 ? 0 : TimeAt(lane, wait, blow, dt, a.OxygenPercent);
            double length = Math.Max(Math.Min(a.DosingS, (blow * dt) - start), Math.Min(dt, blow * dt));
            start = Math.Min(start, (blow * dt) - length);
            int from = Math.Clamp((int)(start / dt), 0, blow - 1);
            int to = Math.Clamp((int)Math.Ceiling((start + length) / dt), from + 1, blow);
            for (int i = from; i < to; i++)
            {
                double overlap = Math.Min(start + length, (i + 1) * dt) - Math.Max(start, i * dt);
                if (overlap > 0)
                {
                    int at = ((wait + i) * _fluxes) + slot;
                    _feeds[at] = _feeds[at].WithElement(lane, _feeds[at].GetElement(lane) + (a.KeptKg * overlap / length / dt));
                }
            }
        }
    }

    private double TimeAt(int lane, int wait, int blow, double dt, double percent)
    {
        double before = 0;
        for (int i = 0; i < blow; i++)
        {
            double now = Percent(wait + i).GetElement(lane);
            if (now >= percent)
            {
                return (i + ((percent - before) / Math.Max(now - before, 1e-12))) * dt;
            }

            before = now;
        }

        return blow * dt;
    }

    /// <summary>Bottom gas of the whole heat, Nm³.</summary>
    public (double Nitrogen, double Argon) BottomTotals(int lane)
    {
        double nitrogen = 0;
        double argon = 0;
        for (int i = 0; i < Steps; i++)
        {
            double gas = Dt(i).GetElement(lane) * BottomNm3PerS(i).GetElement(lane);
            double share = BottomNitrogen(i).GetElement(lane);
            nitrogen += gas * share;
            argon += gas * (1 - share);
        }

        return (nitrogen, argon);
    }

    private static double First(IReadOnlyList<SetPoint> points) => points[0].Value;

    private void SetRow(int lane, int step, double dt, double oxygen, double lance, double bottom, double nitrogen, double percent)
    {
        int at = step * Fields;
        Set(at, lane, dt);
        Set(at + 1, lane, oxygen);
        Set(at + 2, lane, lance);
        Set(at + 3, lane, bottom);
        Set(at + 4, lane, nitrogen);
        Set(at + 5, lane, percent);
    }

    private void Set(int at, int lane, double value) => _rows[at] = _rows[at].WithElement(lane, value);

    private struct Cursor(int count)
    {
        private readonly int _count = count;

        public int Index;

        public void Advance(IReadOnlyList<SetPoint> points, double percent)
        {
            while (Index + 1 < _count && points[Index + 1].OxygenPercent <= percent)
            {
                Index++;
            }
        }
    }
}
