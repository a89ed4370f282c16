// SPDX-License-Identifier: Apache-2.0
using CsCheck;
using Heatwright.Shop.Files;
using Heatwright.Shop.Shapes;
using Heatwright.Shop.Units;

namespace Heatwright.Shop.Tests;

public sealed class QuantityTests
{
    // Expected values are written by hand from the definitions of the units.
    [Theory]
    [InlineData("132 t", "mass", 132_000)]
    [InlineData("132000kg", "mass", 132_000)]
    [InlineData("1385 °C", "temperature", 1658.15)]
    [InlineData("1385 degC", "temperature", 1658.15)]
    [InlineData("1658.15 K", "temperature", 1658.15)]
    [InlineData("6 °C", "temperature difference", 6)]
    [InlineData("0.45 %", "mass %", 0.45)]
    [InlineData("35 ppm", "mass %", 0.0035)]
    [InlineData("99.5 vol %", "volume %", 99.5)]
    [InlineData("0.5 % of value", "% of the value", 0.5)]
    [InlineData("8200 Nm³", "gas volume", 8200)]
    [InlineData("560 Nm3/min", "gas flow", 560.0 / 60)]
    [InlineData("108000 Nm3/h", "gas flow", 30)]
    [InlineData("3.3 Nm3/(t min)", "gas flow per tonne", 0.055)]
    [InlineData("3.3 Nm3/(t·min)", "gas flow per tonne", 0.055)]
    [InlineData("3.3 Nm3/t/min", "gas flow per tonne", 0.055)]
    [InlineData("34 mm", "length", 0.034)]
    [InlineData("170 cm", "length", 1.7)]
    [InlineData("1.5 h", "time", 5400)]
    [InlineData("2 min", "time", 120)]
    [InlineData("1.1 t/m3", "density", 1100)]
    [InlineData("40 kW/K", "heat transfer", 40_000)]
    [InlineData("310 EUR/t", "price", 0.31)]
    [InlineData("1.48 tCO2/t", "CO2 factor", 1.48)]
    [InlineData("1480 kgCO2/t", "CO2 factor", 1.48)]
    [InlineData("11 bar", "pressure", 1.1e6)]
    [InlineData("2 kWh", "energy", 7.2e6)]
    [InlineData("48 kg/t", "consumption", 0.048)]
    [InlineData("1.2e2 t", "mass", 120_000)]
    [InlineData("+.5 t", "mass", 500)]
    public void A_written_quantity_has_its_value(string text, string kind, double expected)
    {
        QuantityKind wanted = Kinds.All.Single(k => k.Name == kind);
        var reading = new Reading("test", References.None);

        Assert.True(QuantityReader.TryRead(text, [wanted], wanted.Example, new ScalarNode(1, 1, text, true), reading, "x", out Quantity quantity, out _));

        Assert.Equal(expected, quantity.Value, Math.Abs(expected) * 1e-14);
    }

    [Fact]
    public void Every_unit_of_every_kind_reads_back_what_it_wrote()
    {
        foreach (QuantityKind kind in Kinds.All)
        {
            foreach (Unit unit in kind.Units)
            {
                Gen.Double[-1e6, 1e6].Sample(
                    value =>
                    {
                        string text = UnitText.Write(value, unit);
                        var reading = new Reading("test", References.None);
                        bool good = QuantityReader.TryRead(text, [kind], kind.Example, new ScalarNode(1, 1, text, true), reading, "x", out Quantity read, out _);

                        // Written with 13 digits of the number in its own unit.
                        double scale = Math.Max(Math.Abs(value), Math.Abs(unit.Offset * unit.Factor));
                        return good ? Math.Abs(read.Value - value) <= 1e-12 * scale : Math.Abs(unit.FromBase(value)) > QuantityReader.Largest;
                    },
                    seed: "0000K5Hq2l20",
                    iter: 200);
            }
        }
    }

    [Fact]
    public void No_spelling_belongs_to_two_kinds_unless_it_is_a_percent_or_a_degree()
    {
        string[] shared =
        [
            .. Kinds.All.SelectMany(k => k.Units.SelectMany(u => u.Spellings.Prepend(u.Symbol)).Select(s => (Spelling: s, Kind: k)))
                .GroupBy(p => p.Spelling).Where(g => g.Select(p => p.Kind).Distinct().Count() > 1).Select(g => g.Key),
        ];

        Assert.Equal(["%", "K", "degC", "°C"], shared.Order(StringComparer.Ordinal));
    }

    [Fact]
    public void Each_example_of_a_kind_is_a_value_of_that_kind()
    {
        foreach (QuantityKind kind in Kinds.All)
        {
            Assert.True(UnitText.TrySplit(kind.Example, out _, out string unit));
            Assert.NotNull(kind.Find(unit));
        }
    }

    [Theory]
    [InlineData("1.")]
    [InlineData("")]
    [InlineData("t")]
    [InlineData("--5 t")]
    [InlineData("0x10 t")]
    [InlineData("5 e3 t")]
    [InlineData("٣ t")]
    [InlineData("1 2 t")]
    public void What_is_no_quantity_of_mass_is_refused(string text)
    {
        var reading = new Reading("test", References.None);

        Assert.False(QuantityReader.TryRead(text, [Kinds.Mass], "132 t", new ScalarNode(3, 4, text, true), reading, "x", out _, out _));

        Problem problem = Assert.Single(reading.Problems);
        Assert.Equal((3, 4), (problem.Line, problem.Column));
    }

    [Theory]
    [InlineData(0.1 + 0.2, "0.3")]
    [InlineData(-0.0, "0")]
    [InlineData(1e-5, "0.00001")]
    [InlineData(160_000, "160000")]
    public void Numbers_are_shown_as_people_write_them(double number, string expected) => Assert.Equal(expected, UnitText.Number(number));
}
