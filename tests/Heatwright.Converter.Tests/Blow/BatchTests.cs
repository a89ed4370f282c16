// SPDX-License-Identifier: Apache-2.0
using Heatwright.Chemistry.Slag;
using Heatwright.Converter.Blow;
using Heatwright.Converter.Blow.Jet;

namespace Heatwright.Converter.Tests.Blow;

/// <summary>A heat's result does not depend on the batch, the lane or the number of threads; steps are fine enough.</summary>
public sealed class BatchTests
{
    [Fact]
    public void Same_bytes_alone_in_any_lane_and_on_any_number_of_threads()
    {
        foreach (HeatInput[] heats in TestHeats.Draw(45, "0000Qw2eR4t6").Chunk(9))
        {
            ModelParameters[] parameters = [.. heats.Select(_ => ModelParameters.Default)];
            BlowResult[] one = BlowModel.Run(heats, parameters, new BlowOptions(Workers: 1));
            BlowResult[] two = BlowModel.Run(heats, parameters, new BlowOptions(Workers: 2));
            BlowResult[] reversed = BlowModel.Run([.. heats.Reverse()], parameters, new BlowOptions(Workers: 2));
            for (int i = 0; i < heats.Length; i++)
            {
                BlowPoint alone = BlowModel.Run(heats[i], ModelParameters.Default).End;
                AssertSame(alone, one[i].End);
                AssertSame(alone, two[i].End);
                AssertSame(alone, reversed[heats.Length - 1 - i].End);
            }
        }
    }

    private static void AssertSame(BlowPoint a, BlowPoint b)
    {
        // ScrapKg has a slot for every class of the widest heat of the pack; compare what the heat has.
        foreach (System.Reflection.PropertyInfo p in typeof(BlowPoint).GetProperties().Where(p => p.PropertyType == typeof(double)))
        {
            Assert.True(p.GetValue(a)!.Equals(p.GetValue(b)), $"{p.Name}: {p.GetValue(a):R} against {p.GetValue(b):R}");
        }

        Assert.Equal(a.ScrapKg.Sum(), b.ScrapKg.Sum());
    }

    [Fact]
    public void The_default_step_is_within_1e_3_of_a_fine_one_on_carbon_temperature_and_iron_oxide()
    {
        foreach (HeatInput heat in (HeatInput[])[TestHeats.Ordinary(), TestHeats.Ordinary(oreKg: 1500), TestHeats.Ordinary(silicon: 0.8), TestHeats.Ordinary(hotMetalC: 1280), TestHeats.Ordinary(lanceChangeM: 0.4)])
        {
            BlowPoint usual = BlowModel.Run(heat).End;
            BlowPoint fine = BlowModel.Run(heat, new BlowOptions(StepS: 0.05)).End;
            Assert.Equal(1, usual.TemperatureK / fine.TemperatureK, 2e-5);
            Assert.Equal(1, usual.C / fine.C, 1e-3);
            Assert.Equal(1, usual.FeO / fine.FeO, 1e-3);
        }
    }

    [Fact]
    public void Of_odd_heats_at_least_nine_in_ten_stay_within_5_K_and_two_percent_of_a_fine_step()
    {
        // Frozen boxes, no slag, 3 s doses and the like are stiff; what is out of the ordinary may be out of the 1e-3 too, and is counted.
        HeatInput[] heats = TestHeats.Draw(64, "0000Zx5cV7b9");
        ModelParameters[] parameters = [.. heats.Select(_ => ModelParameters.Default)];
        BlowResult[] usual = BlowModel.Run(heats, parameters);
        BlowResult[] fine = BlowModel.Run(heats, parameters, new BlowOptions(StepS: 0.1));
        int near = 0;
        for (int i = 0; i < heats.Length; i++)
        {
            bool temperature = Math.Abs(usual[i].End.TemperatureK - fine[i].End.TemperatureK) < 5;
            bool carbon = Math.Abs(usual[i].End.C - fine[i].End.C) < (2e-2 * fine[i].End.C) + 1e-3;
            near += temperature && carbon ? 1 : 0;
        }

        Assert.True(near >= 58, $"{near} of 64");
    }

    [Fact]
    public void Under_steady_set_points_the_error_falls_with_the_square_of_the_step()
    {
        // Set points that change within a step are averaged over it, which is first order; without them Heun's second order must show.
        HeatInput plain = TestHeats.Ordinary(afterStirS: 0);
        HeatInput steady = plain with
        {
            Programme = plain.Programme with { LanceHeightM = [new(0, 1.8)], Stirring = [new(0, 0.1, StirringGas.Argon)], Additions = [], ChargeToBlowS = 0, OxygenNm3 = 6500 },
        };
        BlowPoint Run(double step) => BlowModel.Run(steady, new BlowOptions(StepS: step)).End;
        BlowPoint fine = Run(0.05);
        double Error(double step) => Math.Abs(Run(step).C - fine.C);
        Assert.True(Error(2) < Error(4) / 2.8 && Error(1) < Error(2) / 2.8, $"{Error(4):E2}, {Error(2):E2}, {Error(1):E2} % C");
    }

    [Fact]
    public void Four_lanes_agree_with_the_scalar_slag_models()
    {
        foreach (BlowPoint p in BlowModel.Run(TestHeats.Ordinary(), new BlowOptions(RecordEveryS: 60)).Trajectory.Where(p => p.SlagTemperatureK > 1600))
        {
            SlagComposition slag = SlagComposition.FromMasses(new Dictionary<Chemistry.Constituent, double>
            {
                [Chemistry.Constituent.CaO] = p.CaO,
                [Chemistry.Constituent.SiO2] = p.SiO2,
                [Chemistry.Constituent.FeO] = p.FeO,
                [Chemistry.Constituent.MgO] = p.MgO,
                [Chemistry.Constituent.Al2O3] = 100 - p.CaO - p.SiO2 - p.FeO - p.MgO,
            });
            Assert.Equal(MgOSaturation.Fitted(slag, p.SlagTemperatureK).MassPercent, p.MgOSaturation, 0.02);
        }
    }

    [Fact]
    public void Four_lanes_agree_with_the_scalar_cavity()
    {
        HeatInput heat = TestHeats.Ordinary();
        Vessel v = heat.Vessel;
        BlowPoint[] blown = [.. BlowModel.Run(heat, new BlowOptions(RecordEveryS: 60)).Trajectory.Where(p => p.OxygenNm3PerS > 0)];
        Assert.NotEmpty(blown);
        foreach (BlowPoint p in blown)
        {
            double pressurePa = IsentropicFlow.StagnationPressure(p.OxygenNm3PerS / IsentropicFlow.OxygenNm3PerKg / v.NozzleCount, HeatInput.AmbientK, v.NozzleThroatM, 0.97);
            double momentum = Cavity.KoriaLangeMomentum(v.NozzleThroatM, pressurePa, 101_325, v.NozzleAngleDegrees, VesselShape.SteelKgM3, p.LanceOverBathM);

            // The four lanes have g 9.81 and pressures in bar with printed digits: 3 parts in 10 000 of momentum.
            Assert.Equal(1, p.CavityM / Cavity.KoriaLangeDepthM(momentum, p.LanceOverBathM), 1e-3);
        }
    }

    [Fact]
    public void A_step_allocates_nothing()
    {
        var runner = new PackRunner(BlowOptions.Default);
        runner.Load([TestHeats.Ordinary(oreKg: 500)], [ModelParameters.Default], 0, 1);
        int step = 0;
        for (; step < runner.Grid.Steps / 2; step++)
        {
            runner.Step(step);
        }

        long before = GC.GetAllocatedBytesForCurrentThread();
        for (; step < runner.Grid.Steps; step++)
        {
            runner.Step(step);
        }

        Assert.Equal(before, GC.GetAllocatedBytesForCurrentThread());
    }

    [Fact]
    public void Four_lanes_agree_with_the_scalar_oxygen_activity_of_the_slag()
    {
        const double ferric = 0.15;
        foreach (BlowPoint p in BlowModel.Run(TestHeats.Ordinary(), new BlowOptions(RecordEveryS: 60)).Trajectory.Where(p => p.TemperatureK > 1480 && p.FeO > 2))
        {
            double iron = p.FeO / Chemistry.Constituents.MolarMass(Chemistry.Constituent.FeO);
            SlagComposition slag = SlagComposition.FromMasses(new Dictionary<Chemistry.Constituent, double>
            {
                [Chemistry.Constituent.FeO] = iron * (1 - ferric) * Chemistry.Constituents.MolarMass(Chemistry.Constituent.FeO),
                [Chemistry.Constituent.Fe2O3] = iron * ferric / 2 * Chemistry.Constituents.MolarMass(Chemistry.Constituent.Fe2O3),
                [Chemistry.Constituent.CaO] = p.CaO,
                [Chemistry.Constituent.SiO2] = p.SiO2,
                [Chemistry.Constituent.MgO] = p.MgO,
                [Chemistry.Constituent.MnO] = p.MnO,
                [Chemistry.Constituent.P2O5] = p.P2O5,
                [Chemistry.Constituent.Al2O3] = p.Al2O3,
                [Chemistry.Constituent.TiO2] = p.TiO2,
            });

            // The kernel takes activities at the metal's temperature and f_O 0.911 at saturation; CaF2 of the retained slag counts as lime there.
            double expected = new SlagActivities(slag, p.TemperatureK).FeO * PhosphorusPartition.SaturationOxygenPercent(p.TemperatureK) * 0.911;
            Assert.Equal(1, p.SlagOxygenPercent / expected, 0.03);
        }
    }

    public static TheoryData<Chemistry.Constituent, double> MolarConstants => new()
    {
        { Chemistry.Constituent.P2O5, Molar.P2O5 },
        { Chemistry.Constituent.SiO2, Molar.SiO2 },
        { Chemistry.Constituent.Al2O3, Molar.Al2O3 },
        { Chemistry.Constituent.V2O3, Molar.V2O3 },
        { Chemistry.Constituent.Cr2O3, Molar.Cr2O3 },
        { Chemistry.Constituent.TiO2, Molar.TiO2 },
        { Chemistry.Constituent.MnO, Molar.MnO },
        { Chemistry.Constituent.CaO, Molar.CaO },
        { Chemistry.Constituent.CaS, Molar.CaS },
        { Chemistry.Constituent.MgO, Molar.MgO },
        { Chemistry.Constituent.H2O, Molar.H2O },
        { Chemistry.Constituent.FeO, Molar.Fe + Molar.O },
        { Chemistry.Constituent.C, Molar.C },
    };

    [Theory]
    [MemberData(nameof(MolarConstants))]
    public void Molar_constants_are_the_atomic_weights(Chemistry.Constituent constituent, double molar) =>
        Assert.Equal(Chemistry.Constituents.MolarMass(constituent), molar, 1e-12);
}
