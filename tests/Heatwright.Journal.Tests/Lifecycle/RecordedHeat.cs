// SPDX-License-Identifier: Apache-2.0
using Heatwright.Journal.Entries;
using Heatwright.Journal.Lifecycle;
using Heatwright.Journal.Store;
using Heatwright.Journal.Tests.Store;
using Heatwright.Journal.Views;
using Heatwright.Shop;

namespace Heatwright.Journal.Tests.Lifecycle;

/// <summary>The ordinary demonstration heat in a journal file, as a shift would enter it.</summary>
internal sealed class RecordedHeat : IDisposable
{
    public const string Number = "L-1001";

    private readonly TemporaryFolder _folder = new();

    public RecordedHeat()
    {
        Store = JournalPlace.Open(_folder.File("heats.hwj"), new JournalOptions { CreateIfMissing = true, Clock = Clock });
        Heat = ShopLoader.LoadDemonstrationHeat("heats/ordinary.yaml").ValueOrThrow();
    }

    public SetClock Clock { get; } = new();

    public IJournalStore Store { get; }

    public Heat Heat { get; }

    public static Works Works => ShopLoader.DemonstrationWorks;

    public HeatRecord Record => HeatRecord.Read(Store, Number);

    /// <summary>Enters something that was so so many minutes before now.</summary>
    public Guid Say(EntryBody body, double minutesAgo = 0, string reason = "")
    {
        Guid id = Store.Append(NewEntry.Of(Number, body, Clock.Now.AddMinutes(-minutesAgo), "person:anna", reason))[0].Id;
        Clock.Advance(TimeSpan.FromSeconds(10));
        return id;
    }

    /// <summary>Order, plan, charge as planned, and additions where the practice puts them; oxygen to plan.</summary>
    public void Charged(bool blown = true, Func<PlanBody, PlanBody>? plan = null)
    {
        Charge charge = Heat.Charge!;
        Say(HeatEntries.Order(Heat));
        PlanBody planned = HeatEntries.Plan(Heat, charge);
        Say(plan?.Invoke(planned) ?? planned);
        foreach ((string material, double kg) in charge.ScrapKg)
        {
            Say(new ChargeBody(ChargeKind.Scrap, kg, material));
        }

        Say(new ChargeBody(ChargeKind.HotMetal, charge.HotMetalKg, null, Heat.HotMetalTemperatureK, Heat.HotMetalSlagKg));
        if (!blown)
        {
            return;
        }

        Clock.Advance(TimeSpan.FromMinutes(2));
        Say(new OperationBody(HeatOperation.Blow, OperationState.Running, 1, "North"));
        foreach (Converter.Addition a in HeatBuilder.Build(Works, Heat).Programme.Additions)
        {
            Say(new AdditionBody(a.Material.Name, a.MassKg, AdditionPlace.Converter, Math.Max(0, a.OxygenPercent) / 100 * charge.OxygenNm3));
        }

        Clock.Advance(TimeSpan.FromMinutes(15));
        Say(new OperationBody(HeatOperation.Blow, OperationState.Complete, 1, "North", charge.OxygenNm3));
    }

    /// <summary>Asks and enters the answer.</summary>
    public Guid Ask(ResultQuestion question, int members = 60)
    {
        HeatAnswer answer = HeatQuestions.Ask(Record, Works, question, new QuestionOptions(Members: members));
        Assert.Null(answer.Refusal);
        return Say(answer.Result!);
    }

    public ResultBody Latest(ResultQuestion question) => Record.Results.Single(r => r.Latest && r.Fact.Body.Question == question).Fact.Body;

    public void Dispose()
    {
        Store.Dispose();
        _folder.Dispose();
    }
}
