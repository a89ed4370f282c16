// SPDX-License-Identifier: Apache-2.0
using Heatwright.Converter;
using Heatwright.Converter.Blow;
using Heatwright.Converter.Charge;
using Heatwright.Reports.Heats;
using Heatwright.Reports.Pictures;
using Heatwright.Shop;
using BlowPoint = Heatwright.Converter.Blow.BlowPoint;

namespace Heatwright.Reports.Tests;

/// <summary>The demonstration heats that have a charge, blown.</summary>
public sealed record DemoHeat(Heat Heat, HeatInput Input, BlowResult Result, IReadOnlyList<BlowPoint> Ends)
{
    public static TheoryData<string, string> NamesAndPictures()
    {
        var data = new TheoryData<string, string>();
        foreach (string name in ShopLoader.DemonstrationHeats.Where(n => ShopLoader.LoadDemonstrationHeat(n).ValueOrThrow().Charge is not null))
        {
            foreach (string picture in (string[])["spine", "account", "window"])
            {
                data.Add(name, picture);
            }
        }

        return data;
    }

    public static DemoHeat Of(string name)
    {
        Heat heat = ShopLoader.LoadDemonstrationHeat(name).ValueOrThrow();
        HeatInput input = HeatBuilder.Build(ShopLoader.DemonstrationWorks, heat);
        return new DemoHeat(heat, input, BlowModel.Run(input, new BlowOptions(RecordEveryS: 4)), [.. new EnsembleDraw(40, 1).Run(input).Select(r => r.End)]);
    }

    public Picture Draw(string picture, bool dark) => picture switch
    {
        "spine" => SpineSheet.Draw(new SpineContent(Heat, Input, Result, Band.Of(Ends.Select(p => p.TemperatureC)), Band.Of(Ends.Select(p => p.C))), dark),
        "account" => AccountSheet.Draw(Heat, HeatAccount.Of(Input, Result), dark),
        _ => WindowSheet.Draw(new WindowContent(Heat, Ends, Outlook.Of(Heat.Order, Ends).Window, [(1, 1550), (0.1, 1620)], new MeasuredPoint(0.4, 0.04, 1570, 6)), dark),
    };
}
