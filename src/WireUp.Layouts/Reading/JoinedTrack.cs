using System.Collections.Immutable;

namespace WireUp.Layouts.Reading;

/// <summary>The joints of the file, found by end.</summary>
internal sealed class JoinedTrack
{
    private readonly Dictionary<TrackEnd, int> _jointOf = [];
    private readonly List<Joint> _joints = [];
    private bool _isPartial;

    public ImmutableArray<Joint> Joints => [.. _joints];

    /// <summary>Whether some joint could not be read, so that an end that looks open may not be.</summary>
    public bool IsPartial => _isPartial;

    public void MarkPartial() => _isPartial = true;

    public Joint? At(TrackEnd end) => _jointOf.TryGetValue(end, out int joint) ? _joints[joint] : null;

    public void Add(Joint joint)
    {
        _jointOf[joint.First] = _jointOf[joint.Second] = _joints.Count;
        _joints.Add(joint);
    }

    public void Replace(TrackEnd end, Joint joint) => _joints[_jointOf[end]] = joint;
}
