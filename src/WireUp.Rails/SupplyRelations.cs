using System.Collections.Frozen;
using WireUp.Layouts;

namespace WireUp.Rails;

/// <summary>
/// Which wires may meet. Districts without a reversing device have a common phase, so that A may only meet A; a reversing
/// district is a supply of its own whose phase is free. Direct-current cabs are set by hand: each booster has a phase of its own.
/// </summary>
internal sealed class SupplyRelations
{
    private readonly FrozenDictionary<string, District> _districts;
    private readonly FrozenDictionary<string, string> _phases;
    private readonly ControlSystem _control;

    internal SupplyRelations(Layout layout)
    {
        _districts = layout.Wiring.Districts.ToFrozenDictionary(district => district.Name);
        _control = layout.Control;
        _phases = layout.Wiring.Districts.ToFrozenDictionary(district => district.Name, Phase);
    }

    /// <summary>A name that two districts share when their phases are tied to each other.</summary>
    internal string PhaseOf(string district) => _phases[district];

    /// <summary>What is wrong when two wires meet, or null.</summary>
    internal MeetingKind? Between(FeederLeg first, FeederLeg second)
    {
        if (PhaseOf(first.District) != PhaseOf(second.District))
        {
            return _districts[first.District].Reversing || _districts[second.District].Reversing
                ? MeetingKind.Reversing
                : MeetingKind.Joined;
        }

        if (first.Leg != second.Leg)
        {
            return MeetingKind.Short;
        }

        // The running rails of three-rail track are common to all districts: every axle joins them.
        bool common = _control == ControlSystem.ThreeRail && first.Leg == Leg.B;
        return first.District == second.District || common ? null : MeetingKind.Joined;
    }

    /// <summary>Whether both wires belong to devices that swap polarity, and not to the same one.</summary>
    internal bool BothSwap(FeederLeg first, FeederLeg second) =>
        first.District != second.District && _districts[first.District].Reversing && _districts[second.District].Reversing;

    private string Phase(District district) => district switch
    {
        { Reversing: true } => $"reversing {district.Name}",
        _ when _control == ControlSystem.Direct => $"booster {district.Booster}",
        _ => "",
    };
}
