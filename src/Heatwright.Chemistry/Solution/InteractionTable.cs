// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Chemistry;

/// <summary>Which first-order interaction coefficients are used.</summary>
public enum InteractionSet
{
    /// <summary>JSPS Steelmaking Data Sourcebook 1988 (default).</summary>
    Jsps,
    /// <summary>JSPS with the values of Sigworth &amp; Elliott 1974 in place of those where they differ (recalled values).</summary>
    SigworthElliott,
}

/// <summary>How the effect of carbon on its own activity is described.</summary>
public enum CarbonSelfInteraction
{
    /// <summary>Gokcen 1994, from dilute to graphite saturation (default).</summary>
    Gokcen,
    /// <summary>The constant coefficient e_C^C of the set; good below about 1 % C only.</summary>
    Wagner,
}

/// <summary>Coefficients e = A/T + B of one set, as dense tables by element.</summary>
internal sealed class InteractionTable
{
    private static readonly Lazy<InteractionTable[]> Tables = new(Load);

    private readonly double[,] _a = new double[AtomicWeights.Count, AtomicWeights.Count];
    private readonly double[,] _b = new double[AtomicWeights.Count, AtomicWeights.Count];
    private readonly bool[,] _listed = new bool[AtomicWeights.Count, AtomicWeights.Count];

    public static InteractionTable Of(InteractionSet set) => Tables.Value[(int)set];

    public List<SecondOrderTerm> SecondOrder { get; } = [];

    public List<SecondOrderTerm> AluminiumOxygen { get; } = [];

    public bool IsListed(Element i, Element j) => _listed[(int)i, (int)j];

    public double Coefficient(int i, int j, double temperatureK) => (_a[i, j] / temperatureK) + _b[i, j];

    private static InteractionTable[] Load()
    {
        var jsps = new InteractionTable();
        var sigworthElliott = new InteractionTable();
        foreach (DataFile.Row row in DataFile.ReadCsv("interactions.csv"))
        {
            InteractionSet set = row.Enumeration<InteractionSet>("set");
            if (set == InteractionSet.Jsps)
            {
                jsps.Add(row);
            }

            // Rows of the other set come after those of JSPS in the file and replace them.
            sigworthElliott.Add(row);
        }

        foreach (DataFile.Row row in DataFile.ReadCsv("interactions2.csv"))
        {
            var term = new SecondOrderTerm(
                row.Enumeration<Element>("solute"), row.Enumeration<Element>("by"), row.Enumeration<Element>("and"), row.Number("A_K"), row.Number("B"));
            bool aluminium = row.Text("set") == "AluminiumOxygen";
            foreach (InteractionTable table in (InteractionTable[])[jsps, sigworthElliott])
            {
                (aluminium ? table.AluminiumOxygen : table.SecondOrder).Add(term);
            }
        }

        return [jsps, sigworthElliott];
    }

    private void Add(DataFile.Row row)
    {
        int i = (int)row.Enumeration<Element>("solute");
        int j = (int)row.Enumeration<Element>("by");
        _listed[i, j] = true;
        _a[i, j] = row.OptionalNumber("A_K") ?? (row.Number("value_1873K") * 1873);
        _b[i, j] = row.OptionalNumber("B") ?? 0;
    }
}

/// <summary>r_i^(j,k) = A/T + B.</summary>
internal readonly record struct SecondOrderTerm(Element Solute, Element By, Element And, double A, double B);
