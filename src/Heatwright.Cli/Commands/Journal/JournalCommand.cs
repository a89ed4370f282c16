// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Cli.Commands.Journal;

/// <summary><c>heatwright journal</c>: look at the record of heats, bring heats in and out, and take care of it.</summary>
internal static class JournalCommand
{
    public static readonly string[] Examples =
    [
        "heatwright journal heats",
        "heatwright journal show L-20001",
        "heatwright journal verify",
    ];

    public static GroupCommand Create()
    {
        var group = new GroupCommand("journal", "The record of every heat: lists, one heat, shift, campaign, materials; import and export; care.");
        group.Add(HeatsCommand.Create());
        group.Add(ShowCommand.Create());
        group.Add(ShiftCommand.Create());
        group.Add(UseCommands.Campaign());
        group.Add(UseCommands.Materials());
        group.Add(RecomputeCommand.Ask());
        group.Add(RecomputeCommand.Again());
        group.Add(ImportCommand.Create());
        group.Add(ExportCommand.Create());
        group.Add(MappingCommands.Draft());
        group.Add(MappingCommands.Quantities());
        group.Add(CareCommands.Verify());
        group.Add(CareCommands.Backup());
        group.Add(CareCommands.Restore());
        group.Add(CareCommands.Migrate());
        group.Add(CareCommands.Doctor());
        return group;
    }
}
