// SPDX-License-Identifier: Apache-2.0
using System.Globalization;
using System.Text;
using Heatwright.Converter.Gas;

namespace Heatwright.Learning.Validation;

/// <summary>Writes the validation chapter of the handbook.</summary>
internal static class ValidationText
{
    public static string Of(ValidationReport r)
    {
        var text = new StringBuilder();
        Opening(text, r);
        Data(text, r);
        Temperature(text, r.Temperature);
        Oxygen(text, r.Oxygen);
        Decarburisation(text, r.Decarburisation);
        Gas(text, r.Gas);
        Consumption(text, r.Consumption);
        Published(text, r.Published);
        NoData(text);
        return text.ToString();
    }

    private static void Opening(StringBuilder t, ValidationReport r)
    {
        Lines(
            t,
            "# Validation: the model against measured heats",
            "",
            "This chapter is written by `heatwright check-model --data DIR`; the rows of the data stay outside the repository, and pictures show",
            "classes of heats (median and quartiles), not single ones. Data: one",
            "converter of about 340 t charge, January to June 2021 (plant records released for a public data challenge, October 2021). The",
            "first half of the heats in time order fits what is said to be fitted; figures are for the second half unless said otherwise.",
            "Errors are measured − model. Intervals are 95 %.",
            "",
            "## What holds and what does not",
            "",
            "| claim | holds | found |",
            "| --- | --- | --- |");
        foreach (Verdict v in r.Verdicts)
        {
            t.Append(CultureInfo.InvariantCulture, $"| {v.What} | {(v.Holds ? "yes" : "**no**")} | {v.Found} |\n");
        }

        t.Append('\n');
    }

    private static void Data(StringBuilder t, ValidationReport r)
    {
        Lines(
            t,
            "## Heats and assumptions",
            "",
            $"{r.Data.HeatsRead} heats were read. Without coal and scrap preheating: {r.Data.EndPoints.Count} with end point (set A), {r.Data.Oxygen.Count} with oxygen (set B);",
            $"{r.Data.EndGas.Count} gas readings at the end, {r.Data.BlowGas.Count} gas summaries of whole blows. Not recorded: hot metal carbon, slag, steel mass, scrap analysis,",
            "coolants, vessel and lance. What the model needs beyond the record is assumed, the same for every heat, and not fitted:",
            "");
        foreach (string line in AssumedPlant.Statement)
        {
            t.Append(CultureInfo.InvariantCulture, $"* {line}\n");
        }

        t.Append('\n');
    }

    private static void Temperature(StringBuilder t, TemperatureResult r)
    {
        Lines(
            t,
            "## End temperature",
            "",
            $"Of {r.Clean} heats {r.WithoutAnalysis} have no hot metal analysis and are left out. {TemperatureCheck.OutlierRule} {r.SetAside.Count} set aside",
            $"({string.Join(", ", r.SetAside.Select(h => $"{h.ScrapKg / 1000:0} t scrap, end {h.EndC:0} °C"))}); with them the balance has RMSE {r.WithSetAside.Rmse:0.0} °C. {r.Points.Count} heats remain. Oxygen is not",
            "recorded for them: each is blown past its end and read where the model's carbon is the measured end carbon" + (r.NotReached == 0 ? "" : $" ({r.NotReached} do not reach it)") + ".",
            $"Fitted: the heat-loss scale, {r.HeatLossScale:0.00}.",
            "",
            "| forecast | numbers fitted | RMSE, first half | RMSE, second half | bias | SD |",
            "| --- | --- | --- | --- | --- | --- |");
        foreach (Forecast f in r.Forecasts)
        {
            t.Append(CultureInfo.InvariantCulture, $"| {f.Name} | {f.Fitted} | {f.First.Rmse:0.0} | {f.Second.Rmse:0.0} | {Signed(f.Second.Bias)} ± {f.Second.BiasHalfWidth95:0.0} | {f.Second.Sd:0.0} |\n");
        }

        Lines(t, "", "![End temperature, measured against model](pictures/validation-temperature.svg)", "");
        if (r.Steered)
        {
            bool flat = r.Pairs.Where(p => p.Name != HeatFigure.LogEndCarbon.Name).All(p => p.Measured.ZeroInside);
            Lines(
                t,
                $"These heats were steered to their aim: the measured temperature {(flat ? "has no slope on any charge figure that differs from zero," : "hardly depends on the charge figures,")}",
                "not even as much on scrap, which must cool, as the balance has. The balance keeps the slopes of thermodynamics:",
                "");
        }
        else
        {
            Lines(t, "The measured temperature follows the charge figures. Slopes of one regression on what was measured and on what the balance says:", "");
        }

        Lines(t, "| input | slope of measured T | slope of the balance |", "| --- | --- | --- |");
        foreach (SlopePair p in r.Pairs)
        {
            t.Append(CultureInfo.InvariantCulture, $"| {p.Name}, °C per {p.Unit} | {Signed(p.Measured.Value, "0.00")} ± {p.Measured.HalfWidth95:0.00} | {Signed(p.Model.Value, "0.00")} |\n");
        }

        Lines(
            t,
            "",
            $"The balance spreads by {r.ModelSd:0} °C (SD) over these charges, the measured temperatures by {r.MeasuredSd:0} °C; of a deviation that the balance expects, {100 * r.TrimLeft.Value:0} ± {100 * r.TrimLeft.HalfWidth95:0} %",
            $"is found in the steel. From the first half to the second the balance expects {Signed(r.ExpectedShiftC, "0")} °C from the charges; {Signed(r.MeasuredShiftC, "0")} °C was measured.",
            "");
        if (r.Steered)
        {
            Lines(
                t,
                "What took out the rest is not in the record. It is not the recorded scrap: to hold the temperature against silicon, scrap alone would",
                $"have to rise by {Needed(r):0.0} points of the charge per 0.1 % Si; it changes by {Signed(0.1 * r.ScrapOnHeat[0].Value, "0.00")} ± {0.1 * r.ScrapOnHeat[0].HalfWidth95:0.00}. Two readings fit, and the data cannot tell between them:",
                "the crew trims with what has no column here (ore, limestone, scale, heating agents, waiting, blowing on), or part of the recorded",
                "charge is not what went in. Either way a balance of the recorded charge cannot foresee the end temperature of these heats. Told the",
                "share of a deviation that survives the trim (last row of the first table; with its mean, two more fitted numbers), it is as good as the mean;",
                "that is no proof of the physics. The slope on end carbon is partly the crew's too: a cold heat is blown on, so low carbon goes with",
                "heats that were cold.",
                "");
        }

        Lines(
            t,
            "Residual slopes, one input at a time, both halves:",
            "",
            "| against | slope, °C per unit | zero inside |",
            "| --- | --- | --- |");
        foreach (ResidualSlope s in r.Slopes)
        {
            t.Append(CultureInfo.InvariantCulture, $"| {s.Name}, {s.Unit} | {Signed(s.Slope.Value, "0.00")} ± {s.Slope.HalfWidth95:0.00} | {(s.Slope.ZeroInside ? "yes" : "no")} |\n");
        }

        Lines(
            t,
            "",
            "![Residuals of the end temperature](pictures/validation-residuals.svg)",
            "",
            r.Steered
                ? "They are the balance's own slopes with the sign turned, as an unrecorded trim makes them. They would look the same for any balance with\nthe published cooling and heating effects, so they neither confirm nor refute it. What one wrong input does to a median heat:"
                : "What one wrong input does to a median heat:",
            "",
            "| input | usual error (1 σ, common practice, from memory) | end temperature, °C |",
            "| --- | --- | --- |");
        foreach (InputError e in r.InputErrors)
        {
            t.Append(CultureInfo.InvariantCulture, $"| {e.Input} | {e.Error} | {Signed(e.EffectC)} |\n");
        }

        Lines(t, $"| all together, independent | | {r.AllInputErrors:0.0} |", "", $"The errors of the balance in the second half have an SD of {r.Balance.Second.Sd:0} °C; errors of the inputs explain about {r.AllInputErrors:0} °C of it.", "");
    }

    private static void Oxygen(StringBuilder t, OxygenDemand r)
    {
        int second = r.Points.Count(p => p.InSecondHalf);
        Lines(
            t,
            "## Oxygen per tonne",
            "",
            $"{r.Points.Count} heats of set B with analysis and oxygen (mean rate × record length of the lance). Their end carbon was not published: the median of set A",
            $"is taken, {r.Middle.EndCarbonPercent:0.000} %, and the range 0.03–0.18 % shown. The heat-loss scale is that of the end temperature; nothing is fitted to oxygen.",
            $"Measured mean of the second half ({second} heats): {r.MeasuredNm3PerT:0.00} Nm³/t charge.",
            "",
            "| assumed end C, % | model, Nm³/t | bias, first half | bias, second half | SD | bias of second half, % |",
            "| --- | --- | --- | --- | --- | --- |");
        foreach (OxygenAtCarbon a in r.AtCarbon)
        {
            t.Append(CultureInfo.InvariantCulture, $"| {a.EndCarbonPercent:0.000} | {a.ModelNm3PerT:0.00} | {Signed(a.First.Bias, "0.00")} ± {a.First.BiasHalfWidth95:0.00} | {Signed(a.Second.Bias, "0.00")} ± {a.Second.BiasHalfWidth95:0.00} | {a.Second.Sd:0.00} | {Signed(100 * a.Second.Bias / r.MeasuredNm3PerT)} |\n");
        }

        Lines(
            t,
            "",
            $"With the share of oxygen used fitted on the first half ({r.OxygenUse:0.000}) the second half has a bias of {Signed(r.FittedBiasPercent)} %: the measured mean moved by {Signed(r.MeasuredShiftPercent)} %",
            $"between the halves and the model's by {Signed(r.ModelShiftPercent)} %, so a level learnt on one half cannot be nearer than that on the other.",
            "The unknown hot metal carbon alone moves the demand by 0.8 % per 0.05 % C: its band of ±0.15 % is worth ±2.4 %. A point of rust on the",
            "scrap brings oxygen for another 1 %.",
            "",
            "![Oxygen per tonne](pictures/validation-oxygen.svg)",
            "");
    }

    private static void Decarburisation(StringBuilder t, DecarburisationResult r)
    {
        Lines(
            t,
            "## Decarburisation at the end of the blow",
            "",
            "Behind the hood CO + CO2 is close to proportional to the carbon rate, since the fan draws a nearly constant flow. Published quartiles",
            $"of CO + CO2 at the end of 2040 blows are divided by {(DecarburisationCheck.MidBlowLeast + DecarburisationCheck.MidBlowMost) / 2:0} %, the middle of the mid-blow range ({DecarburisationCheck.MidBlowLeast:0}–{DecarburisationCheck.MidBlowMost:0} %). The analyser's delay is not stated: without",
            $"one, and with an assumed {DecarburisationCheck.LagS:0} s. Median of {r.Heats} model heats.",
            "",
            $"| end C, % | heats in the files | CO + CO2 in them, quartiles, % | published, over {(DecarburisationCheck.MidBlowLeast + DecarburisationCheck.MidBlowMost) / 2:0} % | over {DecarburisationCheck.MidBlowLeast:0}–{DecarburisationCheck.MidBlowMost:0} % | model, no delay | model, delayed |",
            "| --- | --- | --- | --- | --- | --- | --- |");
        foreach (RateAtEnd a in r.Rates)
        {
            t.Append(CultureInfo.InvariantCulture, $"| {a.Class.Name} (at {a.Class.CarbonPercent:0.000}) | {a.HeatsHere} | {a.GasHere.Lower:0.0} / {a.GasHere.Middle:0.0} / {a.GasHere.Upper:0.0} | {a.Target.Lower:0.00}–{a.Target.Upper:0.00} | {a.WideLower:0.00}–{a.WideUpper:0.00} | {a.Model:0.000} {Mark(a, a.Model)} | {a.ModelLagged:0.000} {Mark(a, a.ModelLagged)} |\n");
        }

        Lines(t, "", "![Rate of decarburisation at low carbon](pictures/validation-decarburisation.svg)", "");
    }

    private static void Gas(StringBuilder t, HoodGasResult r)
    {
        Lines(
            t,
            "## Gas behind the hood",
            "",
            $"Each of {r.Heats.First + r.Heats.Second} heats of set B is blown with its measured oxygen; the mouth gas goes through the hood (chapter 13). Two settings of the hood",
            $"are fitted on the first {r.Heats.First}: the fan's dry suction to nitrogen mid-blow ({r.SuctionNm3PerS:0.0} Nm³/s), the heat transfer to the gas temperature mid-blow ({r.TransferWPerK / 1000:0} kW/K).",
            "CO, CO2 and O2 are then forecasts. The place of the thermometer is not stated. Median over the second half:",
            "",
            "| quantity | measured within the blow, quartiles | model mid-blow (40–70 %) | inside | model within the blow, delayed, quartiles |",
            "| --- | --- | --- | --- | --- |");
        foreach (HoodQuantity q in r.Quantities)
        {
            t.Append(CultureInfo.InvariantCulture, $"| {q.Name}, {q.Unit}{(q.Fitted ? " (fitted)" : "")} | {Three(q.Published)} | {q.MidBlow:0.0} | {(q.Inside ? "yes" : "**no**")} | {Three(q.WithinBlow)} |\n");
        }

        Lines(
            t,
            "",
            "![Gas behind the hood](pictures/validation-gas.svg)",
            "",
            $"At the end of the blow (analyser delayed by {DecarburisationCheck.LagS:0} s), medians, dry volume %:",
            "",
            "| end C, % | heats | CO + CO2 measured | model | O2 measured | model | N2 measured | model |",
            "| --- | --- | --- | --- | --- | --- | --- | --- |");
        foreach (EndGasRow e in r.AtEnd)
        {
            t.Append(CultureInfo.InvariantCulture, $"| {e.Class.Name} | {e.Heats} | {e.MeasuredCarbonGas:0.0} | {e.CarbonGas:0.0} | {e.MeasuredO2:0.0} | {e.O2:0.0} | {e.MeasuredN2:0.0} | {e.N2:0.0} |\n");
        }

        Lines(
            t,
            "",
            "Oxygen here tells where the jets' oxygen goes when carbon no longer takes it: what does not form iron oxide leaves as O2. The measured",
            "gas holds more nitrogen per oxygen than air does, as purge nitrogen and burning iron fume make it; the hood here has neither.",
            "");
    }

    private static void Consumption(StringBuilder t, ConsumptionResult r)
    {
        Lines(
            t,
            "## Consumption of an ordinary heat",
            "",
            $"`{r.Heat}` of the demonstration works, {r.SteelT:0.0} t liquid steel, starting parameters; skirt down: combustion factor held at {HoodCourse.HeldCombustionFactor:0.00}. Ranges: R. Remus, M. A. Aguado-Monsonet, S. Roudier, L. Delgado Sancho,",
            "BAT Reference Document for Iron and Steel Production, JRC 2013, chapter 7 (the citation is confirmed, the ranges are from memory).",
            "",
            "| figure | unit | here | range | inside | source |",
            "| --- | --- | --- | --- | --- | --- |");
        foreach (RangeRow a in r.Rows)
        {
            t.Append(CultureInfo.InvariantCulture, $"| {a.Name} | {a.Unit} | {a.Value:0.0} | {a.Least:0.#}–{a.Most:0.#} | {(a.Inside ? "yes" : "**no**")} | {a.Source} |\n");
        }

        t.Append('\n');
    }

    private static void Published(StringBuilder t, IReadOnlyList<PublishedFigure> figures)
    {
        Lines(
            t,
            "## Published equilibria and properties",
            "",
            "Computed when this chapter was written; the tests hold many more.",
            "",
            "| quantity | unit | here | published | agrees | source |",
            "| --- | --- | --- | --- | --- | --- |");
        foreach (PublishedFigure p in figures)
        {
            t.Append(CultureInfo.InvariantCulture, $"| {p.Quantity} | {p.Unit} | {p.Here:G6} | {p.Published:G6} | {(p.Agrees ? "yes" : p.Disagreement is null ? "**no**" : "sources differ")} | {p.Source}{(p.Disagreement is null ? "" : "; " + p.Disagreement)} |\n");
        }

        t.Append('\n');
    }

    private static void NoData(StringBuilder t) => Lines(
        t,
        "## What has no data here",
        "",
        "* **Compositions within the blow** (metal, slag, temperature): none could be read. The shape (silicon first, manganese and phosphorus",
        "  out, back and out again) is that of the handbook; its timing may be off by some 10 % of the blow and mid-blow FeO by a factor of 1.5–2.",
        "* **End phosphorus, manganese, slag FeO and slag mass**: no set with charge data. Published partitions of phosphorus differ by a factor",
        "  of 2–3 for the same slag, so end P may be off by as much before a plant's offset is learnt; manganese by a factor of about 1.5; FeO",
        "  at 0.04–0.06 % C by ±5 points.",
        "* **Undissolved lime, foam, slopping**: no data; order of magnitude only.",
        "* **Scrap melting**: no times of industrial pieces; the analysis of scrap, its rust and its classes are assumed.",
        "* **Post-combustion inside the vessel**: only its sum with the hood's is measured.",
        "* **Bottom gas**: the vessel of the data is taken as top-blown.",
        "* **Hot metal carbon**: assumed near saturation; its band of ±0.15 % is worth ±2.4 % of oxygen and ±9 °C.");

    /// <summary>Scrap that would cancel 0.1 % Si in the balance, points of the charge.</summary>
    private static double Needed(TemperatureResult r)
    {
        double Slope(HeatFigure f) => r.Pairs.Single(p => p.Name == f.Name).Model.Value;
        return -0.1 * Slope(HeatFigure.Silicon) / Slope(HeatFigure.ScrapShare);
    }

    private static string Three(TimeStatistic s) => string.Create(CultureInfo.InvariantCulture, $"{s.Lower:0.0} / {s.Middle:0.0} / {s.Upper:0.0}");

    private static string Mark(RateAtEnd a, double ratio) => a.Inside(ratio) ? "(inside)" : a.InsideWide(ratio) ? "(inside the wider)" : "(**outside**)";

    private static string Signed(double value, string format = "0.0") => value.ToString($"+{format};−{format};{format}", CultureInfo.InvariantCulture);

    private static void Lines(StringBuilder t, params ReadOnlySpan<string> lines)
    {
        foreach (string line in lines)
        {
            t.Append(line).Append('\n');
        }
    }
}
