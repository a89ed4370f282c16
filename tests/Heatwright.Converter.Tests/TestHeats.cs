// SPDX-License-Identifier: Apache-2.0
using CsCheck;
using Heatwright.Chemistry;

namespace Heatwright.Converter.Tests;

/// <summary>Invented heats of a 160 t converter for the tests, ordinary unless a knob is turned, and random ones far from ordinary.</summary>
internal static class TestHeats
{
    public static readonly FluxMaterial Lime = new("burnt lime", FluxBehaviour.DissolvesIntoSlag, Solid((Constituent.CaO, 92), (Constituent.MgO, 2), (Constituent.SiO2, 1.5), (Constituent.CaCO3, 4), (Constituent.Al2O3, 0.5)), 0.03, 1.5);
    public static readonly FluxMaterial DolomiticLime = new("dolomitic lime", FluxBehaviour.DissolvesIntoSlag, Solid((Constituent.CaO, 58), (Constituent.MgO, 37), (Constituent.SiO2, 2), (Constituent.CaCO3, 3)), 0.025, 1.5);
    public static readonly FluxMaterial RawDolomite = new("raw dolomite", FluxBehaviour.DissolvesIntoSlag, Solid((Constituent.CaCO3, 54), (Constituent.MgCO3, 45), (Constituent.SiO2, 1)), 0.02);
    public static readonly FluxMaterial Ore = new("iron ore", FluxBehaviour.MeltsIntoSlag, Solid((Constituent.Fe2O3, 93), (Constituent.SiO2, 5), (Constituent.Al2O3, 2)), 0.02, 1);
    public static readonly FluxMaterial Ferrosilicon = new("ferrosilicon", FluxBehaviour.DissolvesIntoMetal, Solid((Constituent.Si, 75), (Constituent.Fe, 23.5), (Constituent.Al, 1.5)), 0.03);
    public static readonly FluxMaterial Coke = new("coke", FluxBehaviour.DissolvesIntoMetal, Solid((Constituent.C, 88), (Constituent.SiO2, 6), (Constituent.Al2O3, 4), (Constituent.S, 1), (Constituent.H2O, 1)), 0.03);

    public static ScrapMaterial Scrap(string name, double halfThicknessM) =>
        new(name, Metal((Element.C, 0.15), (Element.Si, 0.1), (Element.Mn, 0.5), (Element.P, 0.02), (Element.S, 0.02), (Element.Cu, 0.12), (Element.Ni, 0.05)), halfThicknessM, 1, 0.5, 0.2);

    /// <summary>An ordinary heat.</summary>
    public static HeatInput Ordinary(
        double lanceChangeM = 0,
        double bottomScale = 1,
        double oxygenNm3 = 8300,
        double hotMetalKg = 142e3,
        double hotMetalC = 1350,
        double silicon = 0.45,
        double phosphorus = 0.09,
        double heavyKg = 14e3,
        double lightKg = 19e3,
        double heavyHalfM = 0.04,
        double lightHalfM = 0.008,
        double limeKg = 6300,
        double oreKg = 0,
        double blownFraction = 1,
        double afterStirS = 60)
    {
        var hotMetal = new HotMetal(hotMetalKg, hotMetalC + 273.15, Metal((Element.C, 4.5), (Element.Si, silicon), (Element.Mn, 0.35), (Element.P, phosphorus), (Element.S, 0.02), (Element.Ti, 0.05), (Element.V, 0.03), (Element.Cr, 0.03), (Element.N, 0.006)), 500);
        double flow = 540.0 / 60;
        double stirring = 0.04 * 160 / 60 * bottomScale;
        var programme = new BlowProgramme(
            oxygenNm3,
            [new(0, flow)],
            [new(0, 2.3), new(8, 2.1), new(20, 1.9 + lanceChangeM), new(40, 1.8 + lanceChangeM), new(78, 1.7 + lanceChangeM), new(88, 1.6)],
            [new(0, stirring, StirringGas.Nitrogen), new(50, stirring, StirringGas.Argon), new(80, stirring * 2, StirringGas.Argon)],
            [new(0, 1), new(8, 0), new(92, 1)],
            [
                new(1, Lime, limeKg * 0.55, 30),
                new(2, DolomiticLime, 3000, 30),
                new(15, Lime, limeKg * 0.25),
                new(27, Lime, limeKg * 0.2),
                new(30, Ore, oreKg),
            ],
            AfterStirS: afterStirS,
            AfterStirNm3PerS: stirring * 2,
            BlownFraction: blownFraction);
        return new HeatInput(hotMetal, [new(Scrap("heavy", heavyHalfM), heavyKg), new(Scrap("light", lightHalfM), lightKg)], Retained(1500), Vessel160(), programme);
    }

    public static Vessel Vessel160() => new(5.2, 8.2, 6, 0.036, 0.049, 14, 10, 95, 1000, 1350, 25, 40e3);

    public static RetainedSlag Retained(double massKg) => new(massKg, Solid((Constituent.CaO, 48), (Constituent.SiO2, 13), (Constituent.MgO, 9), (Constituent.FeO, 22), (Constituent.MnO, 4), (Constituent.P2O5, 1.5), (Constituent.Al2O3, 1.5), (Constituent.CaF2, 1)));

    /// <summary>Heats from all over the range that the model takes: 40–360 t, cold and hot, with and without slag, soft and hard, odd additions.</summary>
    public static readonly Gen<HeatInput> Any =
        from size in Gen.Double[40e3, 360e3]
        from metal in Gen.Select(Gen.Double[0.6, 1], Gen.Double[1250, 1480], Gen.Double[3.4, 5.0], Gen.Double[0, 1.5], Gen.Double[0.05, 1.5], Gen.Double[0.02, 0.3])
        from scrap in Gen.Select(Gen.Double[2e-3, 0.02], Gen.Double[0.02, 0.15], Gen.Double[0, 1])
        from flux in Gen.Select(Gen.Double[0, 70], Gen.Double[0, 30], Gen.Double[0, 30], Gen.Double[0, 25], Gen.Double[0, 5], Gen.Double[0, 5])
        from blow in Gen.Select(Gen.Double[30, 60], Gen.Double[2.2, 4.5], Gen.Double[1.0, 3.0], Gen.Double[0, 0.15], Gen.Double[0.3, 1], Gen.Double[0, 180])
        from slag in Gen.Double[0, 0.06]
        select Build(size, metal, scrap, flux, blow, slag);

    /// <summary>The same heats every time for a seed.</summary>
    public static HeatInput[] Draw(int count, string seed) => Any.Array[count].Single(_ => true, seed);

    private static HeatInput Build(
        double size,
        (double Share, double TemperatureC, double C, double Si, double Mn, double P) m,
        (double Thin, double Thick, double ThickShare) s,
        (double Lime, double Dolomitic, double Raw, double Ore, double Ferrosilicon, double Coke) f,
        (double OxygenPerT, double Rate, double Lance, double Bottom, double Blown, double AfterStirS) b,
        double slag)
    {
        double t = size / 1000;
        var hotMetal = new HotMetal(size * m.Share, m.TemperatureC + 273.15, Metal((Element.C, m.C), (Element.Si, m.Si), (Element.Mn, m.Mn), (Element.P, m.P), (Element.S, 0.03), (Element.Ti, 0.05), (Element.V, 0.04), (Element.Cr, 0.05), (Element.N, 0.006), (Element.Al, 0.01), (Element.Mo, 0.01), (Element.Sn, 0.005)), size * slag * 0.2);
        double scrap = size - hotMetal.MassKg;
        double bore = 5.2 * Math.Pow(size / 170e3, 1 / 3.0);
        Vessel vessel = Vessel160() with { InnerDiameterM = bore, InnerHeightM = bore * 1.6, NozzleThroatM = 0.036 * Math.Sqrt(t * b.Rate / (170 * 3.2)), NozzleExitM = 0.049 * Math.Sqrt(t * b.Rate / (170 * 3.2)) };
        var programme = new BlowProgramme(
            t * b.OxygenPerT,
            [new(0, t * b.Rate / 60), new(30, t * b.Rate / 60 * 0.9), new(60, t * b.Rate / 60)],
            [new(0, b.Lance + 0.4), new(15, b.Lance), new(80, Math.Max(0.8, b.Lance - 0.2))],
            [new(0, b.Bottom * t / 60, StirringGas.Nitrogen), new(60, b.Bottom * t / 60, StirringGas.Argon)],
            [new(0, 1), new(10, 0)],
            [
                new(-1, Lime, f.Lime * t * 0.5, 40), new(3, DolomiticLime, f.Dolomitic * t), new(10, RawDolomite, f.Raw * t, 60), new(20, Lime, f.Lime * t * 0.5),
                new(35, Ore, f.Ore * t, 200), new(40, Ferrosilicon, f.Ferrosilicon * t, 5), new(50, Coke, f.Coke * t), new(85, Ore, f.Ore * t * 0.3, 3),
            ],
            0.995,
            b.AfterStirS,
            0.1 * t / 60,
            b.Blown);
        return new HeatInput(hotMetal, [new(Scrap("thin", s.Thin), scrap * (1 - s.ThickShare)), new(Scrap("thick", s.Thick), scrap * s.ThickShare)], Retained(size * slag), vessel, programme);
    }

    private static MetalAnalysis Metal(params (Element Element, double Percent)[] analysis) => new(analysis.ToDictionary(a => a.Element, a => a.Percent));

    private static SolidAnalysis Solid(params (Constituent Constituent, double Percent)[] analysis) => SolidAnalysis.Normalised(analysis.ToDictionary(a => a.Constituent, a => a.Percent));
}
