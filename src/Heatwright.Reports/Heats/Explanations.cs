// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Reports.Heats;

/// <summary>How the model comes to a quantity.</summary>
/// <param name="Key">Word to ask for.</param>
/// <param name="Title">Name.</param>
/// <param name="How">What moves it, in two or three sentences.</param>
/// <param name="Formula">The relation that decides it, with its units.</param>
/// <param name="Source">Where the relation comes from, and how far to trust it.</param>
public sealed record Explanation(string Key, string Title, string How, string Formula, string Source);

/// <summary>Formula and source of each quantity that can be asked for.</summary>
public static class Explanations
{
    /// <summary>In the order of the end-of-blow table.</summary>
    public static IReadOnlyList<Explanation> All { get; } =
    [
        new(
            "temperature",
            "Temperature",
            "Enthalpies of everything charged against those of everything found. The terms of the account add up to the end temperature exactly. Heats of reaction are not fitted; losses, the share of oxygen used and of post-combustion kept are parameters.",
            "sum over inputs m h(T_in) = sum over metal, slag, solids, gas, dust m h(T_out) + lining + losses, MJ; h of each substance from its polynomial, slag with heat of mixing",
            "Enthalpies: NASA polynomials against JANAF (handbook 10); solution in iron: handbook 11; slag: handbook 40. Heat loss: a parameter with a starting value until finished heats give it."),
        new(
            "carbon",
            "Carbon",
            "Burnt in the hot spot under the jets as long as the metal brings carbon there; below the critical carbon the transport of carbon decides, and oxygen passes on to iron. Droplets in the slag and the boil of the bath take the rest.",
            "jets: the lesser of oxygen supply and transport of carbon, kmol/s; droplets: supply of carbon by droplets in series with reduction of FeO; bath: excess of [%O] over p(CO)/(K f_C f_O [%C]), log K = 1160/T + 2.00",
            "Droplet rate: Subagyo et al., ISIJ Int. 43 (2003) 983, coefficients from memory. K: Ban-ya and Matoba 1962. Scales of transport: parameters (handbook, the blow)."),
        new(
            "phosphorus",
            "Phosphorus",
            "Goes to the slag while the bath is cool and the slag holds iron oxide and lime; comes back when the bath gets hot and iron oxide falls in mid-blow. One oxygen activity at the slag-metal interface couples it with Si, Mn, V, Cr and FeO.",
            "log (%P)/[%P] = 0.072 (CaO + 0.3 MgO + 0.6 P2O5 + 0.6 MnO) + 11570/T - 10.52 + 2.5 log (%T.Fe) + log f_P + offset, mass % and K; transport on both sides of the interface",
            "Partition: Suito and Inoue, Tetsu-to-Hagane 70 (1984) 186, abstract; measured at 1550 to 1650 °C and MgO saturation. In the library also Healy 1970, a set of 1986, Ide and Fruehan 2000 and Assis 2015; they differ by a factor of two to three (handbook 20). The offset is a parameter: a converter ends below equilibrium."),
        new(
            "manganese",
            "Manganese",
            "As phosphorus at the same interface: out early, partly back in mid-blow, out again at the end as iron oxide rises.",
            "log k = 8086/T - 4.262 + terms in slag analysis, k = (%MnO)/([%Mn](%FetO)); transport on both sides of the interface",
            "Park and Dzo (abstract), handbook 20. The offset is a parameter."),
        new(
            "silicon",
            "Silicon",
            "Oxidised first, in the hot spot and at the interface, because its oxide is the most stable of the common ones and lime binds it.",
            "log K = 30110/T - 11.40 for [Si] + 2[O] = SiO2, activity of SiO2 after Ban-ya; transport on both sides of the interface",
            "Ban-ya, ISIJ Int. 33 (1993) 2, conversion to the regular solution from memory (handbook 12 and 20)."),
        new(
            "sulphur",
            "Sulphur",
            "Hardly moves in a converter: the slag is too oxidised. What scrap and hot metal bring stays for the most part.",
            "(CaO) + [S] = (CaS) + [O], constant partition; transport on both sides of the interface",
            "Plant values 3 to 8, from memory."),
        new(
            "oxygen",
            "Oxygen in the steel",
            "Follows carbon: the boil removes what lies above equilibrium with CO at the pressure of bubbles in the bath; bottom gas lowers that pressure. Slag and droplets bring oxygen in at the end.",
            "[%C][%O] = p(CO)/(K f_C f_O), log K = 1160/T + 2.00, p in atm",
            "Ban-ya and Matoba 1962; the pressure is a parameter (1.3 atm without bottom gas)."),
        new(
            "feo",
            "Iron oxide in the slag",
            "What the jets bring and carbon does not take, less what droplets and the interface reduce. A higher lance, softer blow or low carbon raises it.",
            "d(FeO)/dt = jets - droplets - interface, kmol/s; reduction with the square root of droplet supply and an Arrhenius term",
            "Scales: parameters; 80-100 kJ/mol and more for the reduction, from memory. No open data follow FeO through a blow: trust it least."),
        new(
            "basicity",
            "CaO/SiO2 of the liquid slag",
            "Silica from silicon and dirt is there at once; lime must dissolve first. Lumps wait for a slag that is not saturated; a shell of dicalcium silicate slows them.",
            "flux = k (CaO saturation - CaO), k a parameter, falling with solids and shell",
            "Saturation: simple lines through remembered points of the CaO-FeO-SiO2 diagram at 1600 °C (handbook 20). Shell: Matsushima, cited by Kobayashi and Sadamoto, ISIJ Int. 57 (2017) 1703, for the mechanism; the form is ours."),
        new(
            "magnesia",
            "MgO in the slag",
            "From dolomitic lime and retained slag; what is missing to saturation comes from the lining, the faster the hotter.",
            "flux = k (MgO saturation - MgO) over the washed lining",
            "Saturation: a fit to remembered magnitudes with clamps, ±2 % MgO (handbook 20); scale of wear: a parameter."),
        new(
            "foam",
            "Foam over the bath",
            "Slag layer plus gas held up in it. A likelihood, not a level: published indices differ tenfold and were measured at cm/s.",
            "height = layer + 4 x index x gas velocity, index = 115 mu/sqrt(sigma rho) s; the 4 is ours, from the laboratory to a converter",
            "Jiang and Fruehan 1991; viscosity after Urbain, Steel Res. 58 (1987) 111, thickened by solids after Roscoe 1952 (handbook 20)."),
        new(
            "scrap",
            "Scrap",
            "Freezes a shell first, then melts at the liquidus of its carburised surface; light pieces are gone by the middle of the blow, heavy ones melt late. The bath temperature does not show what is still solid.",
            "melting where heat and carbon transfer meet; liquidus 1536 - 54 C - 8.13 C², °C and mass %",
            "Liquidus from memory. Carbon transfer: Mori and Nomura, Tetsu-to-Hagane 55 (1969) 347."),
        new(
            "lance",
            "Jets",
            "Momentum from isentropic flow through the nozzles; depth and width of the cavities decide surface and droplets.",
            "depth = 4.469 h M^0.66, diameter = 2.813 h M^0.282, M dimensionless momentum",
            "Nozzle: NACA Report 1135 (1953). Cavity: Koria and Lange, Steel Res. 58 (1987) 421, coefficients from memory; published depths differ twofold (handbook 21)."),
    ];

    /// <summary>The explanation with the key, or null.</summary>
    public static Explanation? Find(string key) => All.FirstOrDefault(e => e.Key.Equals(key, StringComparison.OrdinalIgnoreCase));
}
