// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Converter.Charge;

/// <summary>Where a search begins. Only a guess: shares of ordinary practice, no source.</summary>
internal static class PlanStart
{
    public static double[] Of(PlanRequest request, PlanModel model) => Charge(request, model, 0.86, 50);

    /// <summary>Other beginnings: much scrap, little scrap.</summary>
    public static IEnumerable<double[]> Others(PlanRequest request, PlanModel model)
    {
        yield return Charge(request, model, 0.95, 54);
        yield return Charge(request, model, 0.78, 48);
    }

    private static double[] Charge(PlanRequest request, PlanModel model, double hotMetalShare, double oxygenNm3PerT)
    {
        double tapped = model.TappedKg;
        IReadOnlyList<PlanMaterial> materials = request.Materials;
        double[] x = new double[materials.Count];
        x[0] = Math.Clamp(materials[0].Start is { } given && hotMetalShare == 0.86 ? given : hotMetalShare * tapped, materials[0].Least, materials[0].Most);
        double wanted = Math.Max(0, (1.09 * tapped) - x[0]);
        double room = request.Scrap.Sum(s => Math.Min(s.Most, tapped));
        for (int k = 0; k < request.Scrap.Count; k++)
        {
            PlanMaterial s = request.Scrap[k];
            x[1 + k] = Math.Clamp(s.Start ?? (room > 0 ? wanted * Math.Min(s.Most, tapped) / room : 0), s.Least, s.Most);
        }

        for (int k = 0; k < request.Additions.Count; k++)
        {
            PlanMaterial a = request.Additions[k];
            x[1 + request.Scrap.Count + k] = Math.Clamp(a.Start ?? 0, a.Least, a.Most);
        }

        x[^1] = Math.Clamp(oxygenNm3PerT * tapped / 1000, request.Oxygen.Least, request.Oxygen.Most);
        return x;
    }
}
