// SPDX-License-Identifier: Apache-2.0
namespace Heatwright.Journal.Demo;

/// <summary>This part: the signals of the blow.</summary>
internal sealed partial class HeatTeller
{
    private void Signals()
    {
        if (_s.Trajectory.Count > 1)
        {
            _pages.Add(SignalCourse.Of(_s, _clock, _options), _clock.Ignition, Vessel, lateS: (_clock.Blows[0].End - _clock.Ignition).TotalSeconds + 130);
        }
    }
}
