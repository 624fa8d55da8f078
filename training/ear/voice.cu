// One voice for everything that sounds: wavetables or soundfont samples with glide, vibrato, drift, frequency modulation,
// detuned doubling, noise, tremolo and an envelope. nvcc builds it for the GPU; g++ -x c++ builds the same for the CPU.
#include <math.h>
#ifdef __CUDACC__
#define INLINE __device__ __forceinline__
#else
#define INLINE static inline
#endif

#define TABLE 1024
#define NOISE 65536
#define TWO_PI 6.2831853f

struct Note {
  float clip, bus, timbre, zone, start, gate, total, hertz, amplitude, decay, glide, vibrato_depth, brightness, phase,
      noise_offset, vowel_from, vowel_to, spare;
};

struct Timbre {
  float attack, sustain, release, glide_seconds, vibrato_hertz, vibrato_delay, detune, detune_mix, fade_seconds, noise_level,
      noise_decay, noise_hold, noise_band, tremolo_depth, tremolo_hertz, fm_ratio, fm_index, fm_decay, tone, drift_depth,
      drift_hertz, cutoff_start, cutoff_end, slope, formant_gain, formant_scale, formant_1, formant_2, formant_3, random_phase;
};

struct Zone {
  float start, length, loop_start, loop_end, frames_per_cycle, gain;
};

INLINE float table_at(const float *table, double cycles) {
  float x = (float)(cycles - floor(cycles)) * TABLE;
  int i = (int)x;
  float part = x - i;
  i &= TABLE - 1;
  return table[i] + (table[(i + 1) & (TABLE - 1)] - table[i]) * part;
}

INLINE float sample_at(const float *bank, const Zone &z, double cycles) {
  double at = cycles * z.frames_per_cycle;
  if (z.loop_start >= 0.f && at >= z.loop_end) {
    double loop = z.loop_end - z.loop_start;
    at = z.loop_start + fmod(at - z.loop_start, loop);
  }
  if (at < 0.0 || at >= z.length - 2.f) return 0.f;
  int i = (int)at;
  float part = (float)(at - i);
  const float *data = bank + (long)z.start;
  return z.gain * (data[i] + (data[i + 1] - data[i]) * part);
}

INLINE float voice(const Note &n, const Timbre &t, const Zone *zones, const float *bank, const float *early, const float *late,
                   const float *noise, int sample, float seconds_per_sample) {
  float s = sample * seconds_per_sample, gate = n.gate * seconds_per_sample, held = s < gate ? s : gate;
  float envelope =
      held < t.attack ? held / t.attack : t.sustain + (1.f - t.sustain) * expf(-(held - t.attack) / n.decay);
  if (s > gate) envelope *= expf(-(s - gate) / t.release);
  float out = 0.f;
  if (t.tone > 0.f) {
    double warped = (double)s + (double)(n.glide * t.glide_seconds * (1.f - expf(-s / t.glide_seconds)));
    if (n.vibrato_depth != 0.f) {
      float w = TWO_PI * t.vibrato_hertz;
      warped += (double)((1.f - expf(-s / t.vibrato_delay)) * n.vibrato_depth * (1.f - cosf(w * s)) / w);
    }
    if (t.drift_depth != 0.f) {
      float w = TWO_PI * t.drift_hertz, phase = TWO_PI * n.phase;
      warped += (double)(t.drift_depth * (cosf(phase) - cosf(w * s + phase)) / w);
    }
    double cycles = warped * n.hertz;
    float tone;
    if (n.zone >= 0.f) {
      const Zone &z = zones[(int)n.zone];
      tone = sample_at(bank, z, cycles);
      if (t.detune > 0.f) tone += t.detune_mix * sample_at(bank, z, cycles * (1.0 + t.detune));
    } else {
      float bend = 0.f;
      if (t.fm_index > 0.f) {
        double modulator = cycles * t.fm_ratio;
        modulator -= floor(modulator);
        bend = t.fm_index * n.brightness * expf(-s / t.fm_decay) * sinf(TWO_PI * (float)modulator) * 0.15915494f;
      }
      float mix = expf(-s / t.fade_seconds);
      double q = cycles + bend + n.phase;
      tone = mix * table_at(early, q) + (1.f - mix) * table_at(late, q);
      if (t.detune > 0.f) {
        q = cycles * (1.0 + t.detune) + bend + n.phase * 3.3f;
        tone += t.detune_mix * (mix * table_at(early, q) + (1.f - mix) * table_at(late, q));
      }
    }
    out = t.tone * tone;
  }
  if (t.noise_level > 0.f) {
    int i = ((int)n.noise_offset + sample) & (NOISE - 1);
    out += t.noise_level * (t.noise_hold + (1.f - t.noise_hold) * expf(-s / t.noise_decay)) *
           noise[(long)((int)t.noise_band) * NOISE + i];
  }
  if (t.tremolo_depth > 0.f) out *= 1.f - t.tremolo_depth * (0.5f + 0.5f * sinf(TWO_PI * t.tremolo_hertz * s));
  float left = n.total - sample;
  if (left < 200.f) envelope *= left * 0.005f;
  return n.amplitude * envelope * out;
}

struct Score {
  const Note *notes;
  const Timbre *timbres;
  const Zone *zones;
  const float *bank, *early, *late, *noise;
  float *mix;
  int buses, clip_samples;
  float seconds_per_sample;
};

#ifdef __CUDACC__
__global__ void render_notes(Score score) {
  long i = blockIdx.x;
  __shared__ Note n;
  __shared__ Timbre t;
  if (threadIdx.x < sizeof(Note) / 4) ((float *)&n)[threadIdx.x] = ((const float *)(score.notes + i))[threadIdx.x];
  __syncthreads();
  if (threadIdx.x < sizeof(Timbre) / 4)
    ((float *)&t)[threadIdx.x] = ((const float *)(score.timbres + (int)n.timbre))[threadIdx.x];
  __syncthreads();
  int total = (int)n.total, start = (int)n.start, first = start < 0 ? -start : 0;
  float *out = score.mix + ((long)n.clip * score.buses + (int)n.bus) * score.clip_samples;
  for (int k = first + threadIdx.x + blockIdx.y * blockDim.x; k < total; k += blockDim.x * gridDim.y) {
    int at = start + k;
    if (at >= score.clip_samples) break;
    atomicAdd(out + at, voice(n, t, score.zones, score.bank, score.early + i * TABLE, score.late + i * TABLE, score.noise, k,
                              score.seconds_per_sample));
  }
}
#endif

extern "C" int render(const void *notes, const void *timbres, const void *zones, const float *bank, const float *early,
                      const float *late, const float *noise, float *mix, int count, int buses, int clip_samples, float rate,
                      void *stream) {
  Score score = {(const Note *)notes, (const Timbre *)timbres, (const Zone *)zones, bank, early, late, noise, mix, buses,
                 clip_samples, 1.f / rate};
#ifdef __CUDACC__
  if (count > 0) render_notes<<<dim3(count, 4), 256, 0, (cudaStream_t)stream>>>(score);
  return (int)cudaGetLastError();
#else
  for (long i = 0; i < count; i++) {
    const Note &n = score.notes[i];
    const Timbre &t = score.timbres[(int)n.timbre];
    int total = (int)n.total, start = (int)n.start;
    float *out = mix + ((long)n.clip * buses + (int)n.bus) * clip_samples;
    for (int k = start < 0 ? -start : 0; k < total && start + k < clip_samples; k++)
      out[start + k] += voice(n, t, score.zones, bank, early + i * TABLE, late + i * TABLE, noise, k, score.seconds_per_sample);
  }
  return 0;
#endif
}
