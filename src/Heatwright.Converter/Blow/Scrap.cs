// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Converter.Blow;

/// <summary>Figures of scrap melting.</summary>
internal static class Scrap
{
    /// <summary>Solid steel, kg/m³.</summary>
    public const double DensityKgM3 = 7500;

    /// <summary>
    /// Heat transfer from the stirred bath, W/(m² K), at the reference stirring (5–50 kW/m²K published for converters and
    /// laboratory melts, from memory).
    /// </summary>
    public const double HeatTransfer = 23e3;

    /// <summary>
    /// Carbon transfer at the reference stirring, m/s. D/δ with D 7e-9 m²/s (from memory) and δ 50–100 µm (Mori &amp; Nomura, Tetsu-to-Hagane
    /// 55 (1969) 347) gives 0.7e-4 to 1.4e-4; set just above that, a converter being stirred harder than their melts.
    /// </summary>
    public const double CarbonTransfer = 1.5e-4;

    /// <summary>Conductivity of hot steel, W/(m K) (from memory; about 30 between 800 and 1400 °C).</summary>
    public const double Conductivity = 30;

    /// <summary>Liquidus of Fe–C, °C: 1536 − 54 C − 8.13 C², C in mass % (from memory; 1350 °C at 2.5 %).</summary>
    public const double LiquidusOfIronK = 1536 + 273.15;
    public const double LiquidusLinear = 54;
    public const double LiquidusSquare = 8.13;

    public static double LiquidusK(double carbonPercent) =>
        LiquidusOfIronK - (LiquidusLinear * carbonPercent) - (LiquidusSquare * carbonPercent * carbonPercent);
}

/// <summary>Figures of lumps of flux.</summary>
internal static class Lumps
{
    /// <summary>Apparent density of a lump of burnt lime, kg/m³ (from memory, 1600–2000).</summary>
    public const double LumpDensityKgM3 = 1750;

    /// <summary>Thermal diffusivity of a lump, m²/s (from memory; porous lime 4e-7 to 8e-7).</summary>
    private const double Diffusivity = 6e-7;

    /// <summary>Time constant of warming through: d²/(15 a), half as long again if carbonate must decompose; never below a stir-in time of 12 s.</summary>
    public static double WarmingTimeS(FluxMaterial material, double co2KmolPerKg)
    {
        if (material.Behaviour != FluxBehaviour.DissolvesIntoSlag)
        {
            return 15;
        }

        double d = material.ParticleDiameterM;
        return Math.Max(12, d * d / (15 * Diffusivity) * (co2KmolPerKg > 0.002 ? 1.5 : 1));
    }
}
